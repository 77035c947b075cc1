#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "events/catalogue.hpp"
#include "events/detector.hpp"
#include "events/live.hpp"
#include "events/response.hpp"
#include "events/series.hpp"
#include "events/solve.hpp"

/// What every event does to every device: the one set of records that the command, the findings and
/// every later paper show.
namespace stringwright::events {

/// The state after one pole alone has opened, all others closed; cells at the coldest, 1000 W/m².
struct After {
  std::optional<units::Voltage>
      recovery;                        ///< across it; none: its two sides float against each other
  std::optional<units::Ratio> in_voc;  ///< in open-circuit voltages of the string (the highest)
  units::Current left;                 ///< through the fault
  units::Current most;                 ///< the largest that any device then carries ...
  std::string most_at;                 ///< ... and which; "" = none
  std::vector<std::string>
      still;          ///< poles of the same device that keep their side tied to the bus
  LiveAt line, load;  ///< its two terminals
};

/// One pole of a device in an event, and those of which the same holds.
struct Sees {
  int pole = -1;                  ///< into Site::poles: the one that carries most
  std::string name;               ///< "A1.Q1"
  std::vector<std::string> like;  ///< names of all of them, this one included
  DevicePole::Role role = DevicePole::Role::string;
  std::string towards;            ///< the way it flows: "into the string"
  std::vector<units::Current> i;  ///< [n_skies] positive with the direction of normal service
  units::Current worst;           ///< the largest of them, with its sign
  int worst_sky = 0;
  std::optional<units::Current> rating;
  std::optional<units::Ratio> ratio;    ///< of the largest to the device's own rating
  std::optional<Opens> opens;           ///< under the largest; none: the rating is not known
  std::optional<units::Time> opens_in;  ///< under the largest, by its part's printed curve
  /// Light from which on it opens; at the coldest, at the hottest cells, and the larger of both, below
  /// which nobody may count on it. None: not up to the top of the grid.
  std::optional<units::Irradiance> above_cold, above_hot, above;
  /// The same by the rule of thumb: every other string gives its Isc, all of it into this device.
  std::optional<units::Irradiance> above_by_bound;
  bool wrong_way = false;  ///< against the marks of a device that opens in one direction only
  bool beyond_interrupt = false;          ///< more than it may interrupt
  std::optional<After> after;             ///< none: not asked, or not solved
  std::optional<units::Voltage> v_opens;  ///< what it may open
};

/// A part that is no device, and what it has to bear.
struct Bears {
  enum class What { module_reverse, bypass_diode, connector, conductor };
  What what = What::conductor;
  std::string thing;
  std::vector<std::string> like;
  units::Current i;
  std::optional<units::Current> limit;  ///< none: not known
  std::string limit_words;              ///< "1.35 × 20 A series fuse rating"
  int sky = 0;
  std::optional<bool> holds() const {
    return limit ? std::optional(units::at_most(i, *limit)) : std::nullopt;
  }
};

/// How bad it is, for the order of a table.
enum class Danger { none, seen, late, silent, breaks };

/// One event, whole.
struct Row {
  Event event;
  std::optional<Failure> failure;  ///< it could not be solved: nothing below is filled
  std::vector<Sees> devices;  ///< that carry more than a hundredth of their rating, worst first
  std::vector<Bears> bears;   ///< worst first
  units::Current fault;  ///< largest through the fault itself; 0 where it has no element of its own
  std::optional<units::Voltage>
      gap;  ///< largest across what the event left open, as the load holds it
  /// The same with the input drained to 0 V, cells at the coldest under 1000 W/m²: what it can rise to.
  std::optional<units::Voltage> gap_most;
  bool gap_floats = false;
  std::optional<units::Power> heat;  ///< largest in a bad contact
  /// After every device that opens at 1000 W/m² with hot cells has opened:
  std::vector<std::string> opened;
  units::Current left;                   ///< through the fault then
  bool cleared = false;                  ///< something opened and what is left is nothing
  std::optional<DetectorSees> detector;  ///< of a fault to ground
  /// Largest in any device without light; of events in which a battery stands at the input.
  std::optional<units::Current> in_the_dark;
  /// Of the grounded pole against ground, once the ground-fault fuse has opened.
  std::optional<units::Voltage> grounded_pole_after;
  /// What the worst device carries while the equipment works, where the event itself takes nothing.
  std::optional<units::Current> while_working;
  std::vector<LiveAt> live;  ///< cells at the coldest, 1000 W/m², every device closed
  Danger danger = Danger::none;
  std::string verdict;             ///< "nothing trips until dark"
  std::vector<std::string> notes;  ///< a sentence each
};

struct TableOptions {
  std::vector<units::Irradiance> suns;  ///< rising; empty: 200 to 1400 W/m² in steps of 200
  /// What each conductor may carry without end [n_conductors]; empty: not judged.
  std::vector<std::optional<units::Current>> ampacity;
  bool thorough = true;  ///< false: only what findings need: the top of the grid
};

struct Table {
  std::vector<Sky> skies;  ///< all suns at the coldest cells, then all at the hottest
  std::vector<Row> rows;   ///< worst first
  int solutions = 0;       ///< that it took
  codebook::Convention convention = codebook::Convention::us;
  std::vector<std::string> remarks;  ///< what was taken for devices and could not be known
};

Table table(const Site& s, const std::vector<Event>& events, const TableOptions& options = {});
/// One event.
Row row(Trials& trials, const Event& e, const std::vector<Sky>& skies, const TableOptions& options);
std::vector<Sky> skies(const Site& s, const TableOptions& options);

/// Season of a sky by its place in the grid.
inline Season season_of(const std::vector<Sky>& skies, int k) {
  return static_cast<std::size_t>(k) < skies.size() / 2 ? Season::cold : Season::hot;
}

/// "12.3 A", "283.0 V", "1418 V": as verdicts print them.
std::string amps(units::Current i);
std::string volts(units::Voltage v);

/// Fills `danger`, `verdict` and `notes` from the rest.
void judge(const Site& s, const std::vector<Sky>& skies, Row& r);
void add_notes(const Site& s, const std::vector<Sky>& skies, Row& r);

/// Fills `bears`; alike things together where `joined`.
void add_bears(const Site& s, const std::vector<Sky>& skies, const Series& all,
               const std::vector<std::optional<units::Current>>& ampacity, bool joined, Row& r);

/// Opened alone while the rest stays: what stands across it, and what flows on.
std::optional<After> open_alone(Trials& trials, const Event& e, int pole);

/// Devices open one after the other, the one that sees most first, until none has to: fills `opened`,
/// `left` and `cleared`.
void open_all(Trials& trials, const Event& e, Row& r);

/// "into the string", "out of the string", "to the equipment", "from the equipment", "into FA", "out of FA".
std::string direction(const Site& s, const DevicePole& p, units::Current i);

}  // namespace stringwright::events
