#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "base/text.hpp"
#include "job/fields.hpp"
#include "job/json.hpp"
#include "job/kinds.hpp"
#include "job/read.hpp"
#include "job/records.hpp"

namespace stringwright::job {
namespace {

/// The parts of a schema that are referred to by name, in the order in which they are first met.
class Definitions {
 public:
  bool has(const std::string& name) const { return at_.count(name) > 0; }
  void reserve(const std::string& name) {
    at_[name] = all_.size();
    all_.emplace_back(name, Json::object());
  }
  void fill(const std::string& name, Json schema) { all_[at_[name]].second = std::move(schema); }
  Json print() const {
    Json object = Json::object();
    for (const auto& [name, schema] : all_) object.set(name, schema);
    return object;
  }

 private:
  std::map<std::string, std::size_t> at_;
  std::vector<std::pair<std::string, Json>> all_;
};

Json reference_to(const std::string& name) {
  return Json::object().set("$ref", Json::text("#/$defs/" + name));
}

class SchemaVisitor {
 public:
  SchemaVisitor(Definitions& definitions, std::string_view title)
      : definitions_(definitions), title_(title) {}

  template <class T>
  void operator()(std::string_view key, Given<T>&, const About& about) {
    const Kind kind = kind_of_value(static_cast<const T*>(nullptr));
    Json one = schema_of(kind, about);
    if (kind.or_pattern) {
      Json either = Json::list();
      either.add(std::move(one)).add(reference_to(define<LengthPattern>()));
      one = Json::object().set("anyOf", std::move(either));
    }
    if (kind.list) {
      Json list = Json::object();
      list.set("type", Json::text("array")).set("items", std::move(one));
      if (about.items > 0)
        list.set("minItems", Json::raw(std::to_string(about.items)))
            .set("maxItems", Json::raw(std::to_string(about.items)));
      one = std::move(list);
    }
    one.set("description", Json::text(description(kind, about)));
    if (!about.example.empty() && about.example.front() != '{')
      one.set("examples", Json::list().add(Json::raw(print_example(about))));
    add(key, about, std::move(one));
  }

  template <Record R>
  void operator()(std::string_view key, R&, const About& about) {
    add(key, about, with_doc(reference_to(define<R>()), about));
  }
  template <Record R>
  void operator()(std::string_view key, std::optional<R>&, const About& about) {
    add(key, about, with_doc(reference_to(define<R>()), about));
  }
  template <RecordById R>
  void operator()(std::string_view key, std::vector<R>&, const About& about) {
    Json by_id = Json::object();
    by_id.set("type", Json::text("object"))
        .set("propertyNames", reference_to("id"))
        .set("additionalProperties", reference_to(define<R>()));
    add(key, about, with_doc(std::move(by_id), about));
  }
  template <class R>
    requires(Record<R> && !RecordById<R>)
  void operator()(std::string_view key, std::vector<R>&, const About& about) {
    Json list = Json::object();
    list.set("type", Json::text("array")).set("items", reference_to(define<R>()));
    add(key, about, with_doc(std::move(list), about));
  }

  Json print() const {
    Json object = Json::object();
    if (!title_.empty()) object.set("title", Json::text(title_));
    object.set("type", Json::text("object")).set("additionalProperties", Json::raw("false"));
    if (!required_.empty()) object.set("required", required_);
    return object.set("properties", properties_);
  }

  template <class R>
  std::string define() {
    const auto info = info_of(static_cast<const R*>(nullptr));
    const std::string name(info.name);
    if (definitions_.has(name)) return name;
    definitions_.reserve(name);
    SchemaVisitor inner(definitions_, info.title);
    R record;
    describe(inner, record);
    definitions_.fill(name, inner.print());
    return name;
  }

 private:
  static Json with_doc(Json schema, const About& about) {
    return schema.set("description", Json::text(about.doc));
  }

  void add(std::string_view key, const About& about, Json schema) {
    properties_.set(key, std::move(schema));
    if (about.required) required_.add(Json::text(key));
  }

  static std::string description(const Kind& kind, const About& about) {
    std::string all(about.doc);
    if (kind.has_range && kind.shape == Shape::text) {
      const std::string range = print_range(about, kind.dimension, kind.point);
      if (!range.empty()) all += " Allowed: " + range + ".";
    }
    if (about.may_choose) all += " \"choose\" leaves it to the design search.";
    if (!about.only.empty()) {
      const auto kinds = text::split(about.only, ' ');
      all += " Only for: " + text::join({kinds.begin(), kinds.end()}, ", ") + ".";
    }
    return all;
  }

  Json schema_of(const Kind& kind, const About& about) {
    Json schema = Json::object();
    if (!kind.choices.empty()) {
      Json all = Json::list();
      for (const auto& choice : kind.choices) all.add(Json::text(choice));
      return schema.set("enum", std::move(all));
    }
    if (!kind.name.empty()) return reference_to(define_text(kind));
    constexpr std::string_view names[] = {"string", "integer", "boolean"};
    schema.set("type", Json::text(names[static_cast<int>(kind.shape)]));
    if (kind.shape == Shape::integer) {
      if (std::isfinite(about.min)) schema.set("minimum", Json::raw(text::shortest(about.min)));
      if (std::isfinite(about.max)) schema.set("maximum", Json::raw(text::shortest(about.max)));
    }
    return schema;
  }

  /// Texts of one form: all voltages, all walks.
  std::string define_text(const Kind& kind) {
    const std::string plain = kind.name.substr(0, kind.name.find(" ("));
    std::string name = text::replace_all(plain, " ", "_");
    if (plain.size() < kind.name.size())  // coefficients: one definition for each absolute unit
      name += "_" + text::replace_all(kind.name.substr(kind.name.rfind(' ') + 1), "/K)", "");
    if (definitions_.has(name)) return name;
    definitions_.reserve(name);
    Json schema = Json::object();
    if (kind.or_number)
      schema.set("type", Json::list().add(Json::text("number")).add(Json::text("string")));
    else
      schema.set("type", Json::text("string"));
    definitions_.fill(name, schema.set("description", Json::text(kind.words)));
    return name;
  }

  Definitions& definitions_;
  std::string_view title_;
  Json properties_ = Json::object();
  Json required_ = Json::list();
};

}  // namespace

std::string schema_json() {
  Definitions definitions;
  definitions.reserve("id");
  Json id = Json::object();
  id.set("type", Json::text("string"))
      .set("pattern", Json::text("^[A-Za-z0-9_\\u0080-\\uffff-]*[A-Za-z0-9_\\u0080-\\uffff]$"))
      .set("description", Json::text("Letters, digits, '_' and '-'; does not end in '-'."));
  definitions.fill("id", std::move(id));

  SchemaVisitor visit(definitions, {});
  JobFile file;
  describe(visit, file);
  const Json body = visit.print();

  Json schema = Json::object();
  schema
      .set("$comment",
           Json::text("Generated from the field lists of src/job and src/parts; do not edit."))
      .set("$schema", Json::text("https://json-schema.org/draft/2020-12/schema"))
      .set("title", Json::text("Stringwright job file"))
      .set("description", Json::text("The job file as TOML tables. Quantities are texts with their "
                                     "unit. References, walks and "
                                     "landings are checked by the reader."));
  schema.take_members(body);
  schema.set("$defs", definitions.print());
  // A generated file says so in its first line.
  return text::replace_all(schema.print(), "{\n  \"$comment\"", "{ \"$comment\"") + "\n";
}

}  // namespace stringwright::job
