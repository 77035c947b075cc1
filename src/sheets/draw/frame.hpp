#pragma once

#include <string>
#include <vector>

#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::draw {

/// What every sheet of a set says in its title strip. All of it is text that is ready to print; what
/// is too long is wrapped or shortened where it stands.
struct Strip {
  std::string program;               ///< "0.1.0"
  std::string job;                   ///< name of the job
  std::vector<std::string> about;    ///< id, place, customer, designer, authority: what is known
  std::string counts;                ///< from the graph
  std::string edition;               ///< "NEC 2023"
  std::string basis;                 ///< grounding, and where the bond is
  std::vector<std::string> checks;   ///< "31 pass", "0 fail", ...
  std::string not_looked_at;         ///< "71 rules NOT LOOKED AT"
  std::vector<std::string> caution;  ///< sentences, the most needed first
  std::string revision, date;
};

/// Where a sheet may draw: inside the frame, above the strip. A3 landscape and A4 portrait.
struct Field {
  double left, top, right, bottom;
};
Field field(const Page& page);

/// Frame, fold ticks, caution line and title strip with the page's own title and scale.
void add_frame(Page& page, const Strip& strip, int number, int total);

}  // namespace stringwright::sheets::draw
