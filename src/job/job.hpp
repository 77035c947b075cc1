#pragma once

#include <optional>
#include <vector>

#include "job/record/box.hpp"
#include "job/record/connector.hpp"
#include "job/record/equipment.hpp"
#include "job/record/grounding.hpp"
#include "job/record/header.hpp"
#include "job/record/remarks.hpp"
#include "job/record/rows.hpp"
#include "job/record/run.hpp"
#include "job/record/shutdown.hpp"
#include "job/record/site.hpp"
#include "job/record/string.hpp"
#include "job/record/study.hpp"
#include "parts/module.hpp"
#include "parts/part.hpp"

/// The job file as records, one per table, one header each in record/. Each record has one field list,
/// `describe`, below it. Meaning: docs/jobfile.md (generated from these lists) and docs/methods/job.md.
namespace stringwright::job {

struct Job {
  Given<int> format;
  Header job;
  Site site;
  Grounding grounding;
  RapidShutdown rapid_shutdown;
  std::optional<Study> study;
  std::vector<parts::Module> module;
  std::vector<parts::Part> part;
  std::vector<Connector> connector;
  std::vector<Surface> surface;
  std::vector<Row> row;  ///< `row` and the rows that `rows` stands for, in file order
  std::vector<String>
      string;  ///< `string` and the strings that `strings` stands for, in file order
  std::vector<Box> box;
  std::vector<Run> run;
  std::vector<Equipment> equipment;
  std::vector<AsBuilt> as_built;
  std::vector<Waiver> waive;
};
template <class V>
void describe(V& visit, Job& j) {
  visit("format", j.format,
        About{.doc = "Version of this format: 1.",
              .required = true,
              .example = "1",
              .min = 1,
              .max = 1});
  visit("job", j.job, About{.doc = "The whole job.", .required = true});
  visit("site", j.site, About{.doc = "Weather and place."});
  visit("grounding", j.grounding, About{.doc = "System grounding."});
  visit("rapid_shutdown", j.rapid_shutdown,
        About{.doc = "What takes the voltage away for the fire service."});
  visit("study", j.study, About{.doc = "An engineer's stamped design."});
  visit("module", j.module, About{.doc = "Modules by id, from their data sheets."});
  visit("part", j.part, About{.doc = "Parts by id; a job's own record wins over the library's."});
  visit("connector", j.connector,
        About{.doc = "Connector families by id, from their data sheets."});
  visit("surface", j.surface, About{.doc = "Planes that rows stand on."});
  visit("row", j.row, About{.doc = "Rows of modules."});
  visit("string", j.string, About{.doc = "Strings (source circuits)."});
  visit("box", j.box, About{.doc = "Combiner and re-combiner boxes."});
  visit("run", j.run, About{.doc = "Runs of cable or conduit."});
  visit("equipment", j.equipment, About{.doc = "Charge controllers, inverters, pump drives."});
  visit("as_built", j.as_built, About{.doc = "Where the built thing differs from the drawn one."});
  visit("waive", j.waive, About{.doc = "Findings accepted with a reason."});
}

}  // namespace stringwright::job
