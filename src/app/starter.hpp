#pragma once

#include <string>

namespace stringwright::app {

std::string starter();     ///< a commented starter job
std::string job_schema();  ///< JSON Schema of the job file

}  // namespace stringwright::app
