#pragma once

#include <vector>

#include "check/facts.hpp"

namespace stringwright::check {

/// Facts of every stretch with all that lies in it, and of every pull box. Stretches that the job gives one
/// raceway name are one thing of that name; else a thing is called after its run ("OUT", "OUT.2") or its
/// box's home runs ("A1.home_run").
std::vector<Judged> laid_facts(const wiring::Wiring& w);

/// Facts of every box's enclosure, and of every surface with the leads on it.
std::vector<Judged> enclosure_facts(const wiring::Wiring& w);

}  // namespace stringwright::check
