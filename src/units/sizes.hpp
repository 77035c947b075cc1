#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "units/quantity.hpp"

namespace stringwright::units {

/// Conductor size as an ordered name: AWG 18 ... 4/0, kcmil 250 ... 2000, or metric mm². Its
/// resistance and ampacity are looked up, never computed from the name. Ordered by metal area.
class WireSize {
 public:
  WireSize() = default;

  /// "10 AWG", "4/0 AWG", "#10", "250 kcmil", "6 mm²", "6 mm2". The message of a failure says what
  /// was found and what is allowed.
  static Result<WireSize> read(std::string_view text);
  /// The name as the tables write it: "10", "4/0", "250"; metric sizes: "6 mm²".
  static std::optional<WireSize> from_table(std::string_view name);

  const std::string& table_name() const { return name_; }  ///< "10", "4/0", "250", "6 mm²"
  std::string print() const;  ///< "10 AWG", "4/0 AWG", "250 kcmil", "6 mm²"
  bool metric() const { return metric_; }
  bool known() const { return area_.si() > 0; }

  /// Nominal metal area: circular mils for AWG and kcmil (AWG by the diameter formula of ASTM B258,
  /// 0.005 in · 92^((36−n)/39)), the nominal mm² for metric sizes.
  Area area() const { return area_; }

  friend bool operator==(const WireSize& x, const WireSize& y) { return x.name_ == y.name_; }
  friend std::partial_ordering operator<=>(const WireSize& x, const WireSize& y) {
    return x.area_ <=> y.area_;
  }

  /// All AWG and kcmil sizes of the tables, small to large.
  static const std::vector<WireSize>& american();
  /// The metric series of IEC 60228, 1.5 to 630 mm², small to large.
  static const std::vector<WireSize>& metric_series();

 private:
  WireSize(std::string name, bool is_metric, Area area)
      : name_(std::move(name)), metric_(is_metric), area_(area) {}

  std::string name_;
  bool metric_ = false;
  Area area_;
};

/// Raceway trade size as an ordered name: "1/2", "3/4", "1", "1-1/4" ... "6".
class TradeSize {
 public:
  TradeSize() = default;
  static Result<TradeSize> read(
      std::string_view text);                  ///< "3/4 in", "1-1/4 in", "1 1/4 in", "1 in", "3/4"
  static const std::vector<TradeSize>& all();  ///< 3/8 to 6, small to large
  std::string print() const { return name_ + " in"; }
  const std::string& table_name() const { return name_; }
  double nominal_inches() const { return inches_; }  ///< for order only; not an inside diameter
  friend bool operator==(const TradeSize& x, const TradeSize& y) { return x.name_ == y.name_; }
  friend std::partial_ordering operator<=>(const TradeSize& x, const TradeSize& y) {
    return x.inches_ <=> y.inches_;
  }

 private:
  TradeSize(std::string name, double nominal) : name_(std::move(name)), inches_(nominal) {}

  std::string name_;
  double inches_ = 0;
};

enum class Metal { copper, aluminium };
std::string_view print(Metal m);  ///< "Cu", "Al"

/// The insulation types that can be written, "bare" included.
const std::vector<std::string>& insulation_types();

/// A conductor as a person writes it: "10 AWG Cu PV", "6 AWG Cu XHHW-2", "500 kcmil Al XHHW-2",
/// "10 AWG bare Cu". Metal must be written; insulation may be missing (unknown) or "bare".
struct Wire {
  WireSize size;
  Metal metal = Metal::copper;
  std::string insulation;  ///< one of `insulation_types()`; "" = unknown

  static Result<Wire> read(std::string_view text);
  std::string print() const;
  friend bool operator==(const Wire&, const Wire&) = default;
};

}  // namespace stringwright::units
