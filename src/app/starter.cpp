#include "app/starter.hpp"

#include "job/read.hpp"

namespace stringwright::app {

std::string starter() { return job::starter(); }
std::string job_schema() { return job::schema_json(); }

}  // namespace stringwright::app
