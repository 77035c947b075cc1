#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "trail/trail.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::codebook {

/// A value of a table with the row and column it was read in, its citation and its status. `value` is
/// empty where the table has no such cell; `why` then says so.
template <class T>
struct Looked {
  std::optional<T> value;
  std::string where;
  trail::Source source;
  std::string why;
};

/// The rows of an ambient table between which a temperature falls.
struct AmbientBand {
  std::optional<units::Temperature> low;  ///< absent: "or less"
  units::Temperature high;
};

/// A family of editions. Rules, tables and words of one are never mixed with those of the other.
enum class Family { nec, iec };
std::string_view print(Family family);  ///< "NEC", "IEC"

/// One published edition of a code: factors, tables and citations as data, each edition a list of
/// changes over the one before (data/codebook/*.csv). Cheap to copy; the data are compiled in, and each
/// table is parsed when it is first asked for.
class Edition {
 public:
  /// "nec_2014", "nec_2023", "iec_2023" ... A failure lists what is offered.
  static Result<Edition> open(std::string_view id);
  static std::vector<std::string> offered();  ///< oldest of each family first
  static std::vector<std::string> offered(Family family);
  /// Also editions whose rules are not complete: for the tables of old published examples.
  static Result<Edition> open_any(std::string_view id);
  static std::vector<std::string> known();  ///< all of them, oldest of each family first

  std::string_view id() const;     ///< "nec_2023"
  std::string_view name() const;   ///< "NEC 2023"
  std::string_view title() const;  ///< "NFPA 70-2023"
  int year() const;                ///< 2023
  Family family() const;

  /// A factor by its id ("conductor.continuous-factor"), with its own citation. Asking for an id that
  /// does not exist in the data is our own mistake (assert); a test asks for all of them.
  Looked<units::Ratio> factor(std::string_view id) const;
  /// The same for a limit that has a unit (data/codebook/factors.csv).
  template <units::Dimension D>
  Looked<units::Quantity<D>> limit(std::string_view id) const {
    const auto any = any_limit(id);
    Looked<units::Quantity<D>> looked{{}, any.where, any.source, any.why};
    if (any.value && any.value->dimension == D)
      looked.value = units::Quantity<D>::from_si(any.value->si);
    return looked;
  }
  Looked<units::Temperature> temperature(std::string_view id) const;

  /// Citation by key ("current.string", "voltage.coefficient"): "NFPA 70-2023, 690.8(A)(1)(a)(1)".
  trail::Source cite(std::string_view key) const;
  /// Whether there is one. Asking `cite` for a key that an offered edition lacks is our own mistake.
  bool has_cite(std::string_view key) const;
  bool has_factor(std::string_view id) const;

  // Tables. Sources, units and status stand at the head of each CSV.

  /// Ampacity in raceway, cable or earth, 30 °C ambient, at most three current-carrying conductors.
  /// @param column  60, 75 or 90 °C conductor temperature
  Looked<units::Current> ampacity(const units::WireSize& size, units::Metal metal,
                                  units::Temperature column) const;
  /// The same for single conductors in free air.
  Looked<units::Current> ampacity_free_air(const units::WireSize& size, units::Metal metal,
                                           units::Temperature column) const;
  /// Ambient correction factor for the 30 °C tables. Between two bands the hotter one holds.
  Looked<units::Ratio> ambient_factor(units::Temperature ambient, units::Temperature column) const;
  /// The band in which `ambient_factor` reads.
  std::optional<AmbientBand> ambient_band(units::Temperature ambient) const;
  /// The equation that may be used instead: sqrt((Tc − Ta)/(Tc − 30 °C)).
  Looked<units::Ratio> ambient_factor_equation(units::Temperature ambient,
                                               units::Temperature column) const;
  /// Adjustment for more than three current-carrying conductors.
  Looked<units::Ratio> bundling_factor(int wires) const;
  /// Adder to ambient over a sunlit roof, by height of the underside; zero where none applies.
  Looked<units::TemperatureDifference> rooftop_adder(units::Length above_roof,
                                                     std::string_view insulation) const;
  /// The same as printed in °F, which is rounded on its own (17 °C is printed as 30 °F).
  Looked<units::TemperatureDifference> rooftop_adder_fahrenheit(units::Length above_roof,
                                                                std::string_view insulation) const;
  /// Voltage correction factor for crystalline silicon; between bands the colder one; nothing below −40 °C.
  Looked<units::Ratio> cold_voltage_factor(units::Temperature t_min) const;
  /// Smallest standard rating not below `i`, and the largest standard rating not above it.
  Looked<units::Current> standard_rating_at_least(units::Current i) const;
  Looked<units::Current> standard_rating_at_most(units::Current i) const;
  /// Device limit of small conductors (14, 12, 10 AWG copper ...); no value for larger sizes.
  Looked<units::Current> small_conductor_limit(const units::WireSize& size,
                                               units::Metal metal) const;
  /// Minimum equipment grounding conductor of the wire type by device rating.
  Looked<units::WireSize> equipment_ground(units::Current device, units::Metal metal) const;
  /// Smallest size whatever the current: `purpose` "circuit" or "equipment-ground".
  Looked<units::WireSize> smallest_size(std::string_view purpose, units::Metal metal) const;
  /// Metal area of an AWG or kcmil size as the table prints it, in circular mils: what sizing by area
  /// goes by (`WireSize::area` is the exact one).
  Looked<units::Area> circular_mils(const units::WireSize& size) const;
  /// Direct-current resistance per length, uncoated stranded conductor, at temperature `t`.
  ///
  ///     r(t) = r_75 · (1 + α · (t − 75 °C))
  ///
  /// Proved: codebook/tables/tables_test.cpp, cases/published (conductor_resistance).
  Looked<units::ResistancePerLength> resistance(const units::WireSize& size, units::Metal metal,
                                                units::Temperature t) const;

  /// Conductor temperature rating of an insulation type, wet location: 75 or 90 °C. Empty where the type
  /// may not be used in a wet place, or is not known.
  Looked<units::Temperature> insulation_rating(std::string_view insulation) const;
  /// The same for a dry location.
  Looked<units::Temperature> insulation_rating_dry(std::string_view insulation) const;
  /// Clear depth in front of what may be worked on while live.
  /// @param opposite  "nothing", "grounded" or "live": what stands there
  Looked<units::Length> working_depth(units::Voltage v, std::string_view opposite) const;
  /// Highest voltage by place: 600 V dwelling, 1000 V other building, 1500 V elsewhere.
  Looked<units::Voltage> voltage_ceiling(bool on_building, bool dwelling) const;

 private:
  int index_ = 0;  // into the list of editions
  explicit Edition(int index) : index_(index) {}
  Looked<units::AnyQuantity> any_limit(std::string_view id) const;
  trail::Source table_source(std::string_view key, std::string_view status) const;
};

/// Direct-current resistance per length of a solid annealed copper wire, from its diameter: the physics
/// that the table of `Edition::resistance` is checked against.
///
///     r(t) = ρ_20 / A · (1 + α_20 · (t − 20 °C))
///
/// @param edition  brings ρ_20 (100 % IACS) and α_20 with their source
/// Limits: solid, uncoated; stranding adds about 2 %, tin about 4 %.
/// Proved: cases/published/nbs100.toml.
Looked<units::ResistancePerLength> annealed_copper(const Edition& edition,
                                                   const units::WireSize& size,
                                                   units::Temperature t);

/// A rule id of the rule list (V1 ... M13), so that a report can name what nobody has looked at.
struct ListedRule {
  std::string id;     ///< "V1"
  std::string title;  ///< what it governs
};
const std::vector<ListedRule>& listed_rules();
/// Those that the edition asks: of its code family, and in force in it.
std::vector<ListedRule> listed_rules(const Edition& edition);

}  // namespace stringwright::codebook
