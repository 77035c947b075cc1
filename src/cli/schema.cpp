#include <ostream>

#include "app/json.hpp"
#include "app/starter.hpp"
#include "cli/command.hpp"

namespace stringwright::cli {

void add_schema(CLI::App& app, Action& chosen) {
  auto which = std::make_shared<std::string>("job");
  auto* command =
      app.add_subcommand("schema", "Print the JSON Schema of the job file or of the replies");
  command->add_option("WHICH", *which, "job or reply")
      ->check(CLI::IsMember({"job", "reply"}))
      ->capture_default_str();
  command->callback([which, &chosen] {
    chosen = [which](const Out& out) {
      out.out << (*which == "job" ? app::job_schema() : app::reply_schema());
      return static_cast<int>(fine);
    };
  });
}

}  // namespace stringwright::cli
