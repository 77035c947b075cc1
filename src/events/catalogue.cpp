#include "events/catalogue.hpp"

#include "base/text.hpp"

namespace stringwright::events {
namespace {

Event event_of(const Kind& kind, std::string place, std::string title,
               std::vector<std::string> like) {
  Event e;
  e.kind = kind.id;
  e.id = e.kind + "@" + place;
  e.place = std::move(place);
  e.title = std::move(title);
  e.cause = kind.cause;
  e.load = kind.load;
  e.gate = kind.gate;
  e.like = std::move(like);
  return e;
}

}  // namespace

std::vector<Event> catalogue(const Site& s) {
  std::vector<Event> all;
  for (const Kind* kind : all_kinds()) {
    for (auto& p : kind->places(s)) {
      const auto title = kind->says(s, p.place);
      if (title) all.push_back(event_of(*kind, std::move(p.place), *title, std::move(p.like)));
    }
  }
  return all;
}

Result<Event> find_event(const Site& s, std::string_view id) {
  const auto at = id.find('@');
  const Kind* kind = find_kind(id.substr(0, at));
  if (!kind || at == std::string_view::npos) {
    std::vector<std::string> known;
    for (const Kind* k : all_kinds()) known.emplace_back(k->id);
    const auto near = text::nearest(id.substr(0, at), known);
    return Failure{"events.no-such-event",
                   text::quoted(id) + " is no event; write KIND@PLACE, " +
                       (kind   ? std::string("with a place")
                        : near ? "did you mean '" + *near + "'?"
                               : "where KIND is one of " + text::join(known, ", "))};
  }
  const std::string place(id.substr(at + 1));
  const auto title = kind->says(s, place);
  if (!title) return title.failure();
  for (auto& p : kind->places(s))
    if (p.place == place) return event_of(*kind, place, *title, std::move(p.like));
  return event_of(*kind, place, *title, {place});
}

}  // namespace stringwright::events
