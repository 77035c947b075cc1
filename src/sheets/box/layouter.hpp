#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sheets/box/layout.hpp"

/// Inside of `lay_out`: one attempt at one scale on one part of the sheet. Not for other folders.
namespace stringwright::sheets::box {

/// The sheet around the drawing: A3, frame 10 mm in, key and title strip at the foot.
inline constexpr double wall_left = 21, wall_top = 21.5;
inline constexpr double foot_of_captions = 241.4;  ///< the key begins below
inline constexpr double wide_column = 288, narrow_column = 300, frame_right = 410;
inline constexpr double safety_height =
    36;  ///< of the words below the drawing where there is no column

/// Least distances across.
inline constexpr double after_devices = 10.6, between_bars = 9.4, after_bars = 6;
inline constexpr double between_entries = 1.6;
inline constexpr double tag_height = 4.6;
inline constexpr double bar_height = 8, bus_height = 6.8;
inline constexpr double below_wall = 12.4;  ///< end of the cables

/// Room for the wall and all that hangs below it.
struct Room {
  double width, height;
  double column;  ///< where the column begins
};

/// What goes through one entry.
struct Bundle {
  Entry::Kind kind = Entry::Kind::relief;
  std::vector<int> wires;     ///< conductors, left to right
  std::vector<double> tops;   ///< x where each comes down
  std::vector<double> slots;  ///< x of each hole against the middle; more holes than wires: plugged
  std::string caption;
  double pitch = 5, width = 0, centre = 0;
  bool upright = true;  ///< its tags
  double x(std::size_t slot) const { return centre + slots[slot]; }
};

/// Whether tags stand upright in a row, and how tall they are then.
struct TagRow {
  bool upright = true;
  double height = tag_height;
};

/// Width and height of a device's face, and of the inside of a box, in millimetres.
std::optional<draw::Point> size_of(const parts::Part* device);
std::optional<draw::Point> outline_of(const parts::Part* box);

class Layouter {
 public:
  Layouter(const View& v, double scale, Room room, std::optional<draw::Point> outline)
      : v_(v), s_(scale), room_(room), outline_(outline) {}

  /// Empty where box or contents do not fit.
  std::optional<Layout> run();

 private:
  // layouter.cpp: what lies where in the graph, and how large it is at this scale
  void sizes();
  bool is_string_place(int terminal) const;
  int bus_of(int terminal) const;  ///< index into View::buses, or −1
  int bar_of(int terminal) const;
  bool of_arrester(int terminal) const;
  int inside_end(int conductor) const;
  double tag_length(int conductor) const;
  TagRow tag_row(std::vector<std::pair<double, int>> at) const;
  TagRow tag_row(const std::vector<int>& conductors, double pitch) const;

  // places.cpp: devices, bars, arrester
  bool widths();
  bool heights();
  void tag_rows();
  void place_devices();
  void place_buses();
  void place_bars();
  void place_arrester();
  void place_rail();
  double bar_width(const Bar& b) const;
  double lugs_width() const;
  double arrester_pitch() const;
  double arrester_width() const;
  double arrester_run() const;

  // entries.cpp: what goes through the wall, and where
  void make_bundles();
  void add_reliefs(const std::vector<int>& wires, double above, const std::string& what,
                   std::size_t& count);
  void add_hub(Entry::Kind kind, std::vector<int> wires, double pitch, const std::string& caption);
  void add_feeders(const std::vector<int>& wires, const std::string& what);
  std::string out_caption() const;
  void place_bundles();
  void spread(double left, double right);
  void nest_jogs();
  void align_bars();
  void write_captions();
  double caption_height() const;
  void add_entries();

  // paths.cpp: wires
  struct Beside {
    double offset = 0;
    int rank = 0;
  };
  Beside beside(int conductor) const;
  double top_x(int conductor, std::size_t out_rank) const;
  void down_paths();
  void out_paths();
  void arrester_paths();
  void add_end_tag(Path& p, double x, const Bundle& b);

  // zones.cpp: dangerous metal
  void zones();
  void live_zone();
  void float_zone(std::size_t bar);
  void closed_zone();

  const View& v_;
  double s_;
  Room room_;
  std::optional<draw::Point> outline_;
  Layout l_;

  // Sizes on paper.
  double device_height_ = 85, pole_pitch_ = 18, devices_width_ = 0;
  std::vector<double> place_left_, place_width_;  ///< [n_places], left against the first one's
  bool stretched_ = false;                        ///< devices are drawn larger than the scale says
  double hole_pitch_ = 10, slot_pitch_ = 10, lug_pitch_ = 10, out_pitch_ = 13.6, first_lug_ = 15;
  double hole_radius_ = 1.7, lug_radius_ = 2.3;

  // Conductors that come down from devices, from the other pole's bar, from the ground bar.
  std::vector<int> from_devices_, from_bar_, from_ground_;
  TagRow device_tags_, bar_tags_, ground_tags_;

  std::vector<Bundle> bundles_;
  std::vector<std::pair<std::size_t, std::size_t>> captioned_;  ///< bundles that share a caption
  std::vector<int> level_;  ///< depth of each wire's jog, in the order of bundles and their wires
  int deepest_ = 0;

  double x_device_ = 0, out_left_ = 0, out_right_ = 0;
  double bus_step_ = 11, finger_gap_ = 6.8, drop_ = 16, jog_step_ = 3.2;
  double bus_top_ = 0, device_top_ = 0, bar_top_ = 0;
  double jog_top_ = 0, jog_bottom_ = 0, wire_end_ = 0;
};

}  // namespace stringwright::sheets::box
