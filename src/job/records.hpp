#pragma once

#include <string_view>

#include "job/patterns.hpp"

/// How the schema and the reference page call each record.
namespace stringwright::job {

struct RecordInfo {
  std::string_view name;   ///< in the schema
  std::string_view title;  ///< heading of the reference page
};

inline RecordInfo info_of(const Header*) { return {"job", "The whole job"}; }
inline RecordInfo info_of(const Site*) { return {"site", "Weather and place"}; }
inline RecordInfo info_of(const Grounding*) { return {"grounding", "System grounding"}; }
inline RecordInfo info_of(const RapidShutdown*) { return {"rapid_shutdown", "Rapid shutdown"}; }
inline RecordInfo info_of(const GroundFault*) {
  return {"ground_fault", "Ground-fault protection"};
}
inline RecordInfo info_of(const parts::Module*) { return {"module", "Modules"}; }
inline RecordInfo info_of(const parts::Part*) { return {"part", "Parts"}; }
inline RecordInfo info_of(const parts::TerminalSpec*) {
  return {"terminal", "Terminals of a part"};
}
inline RecordInfo info_of(const parts::TimeCurrentPoint*) {
  return {"time_current_point", "Points of a time-current curve"};
}
inline RecordInfo info_of(const parts::DeratingPoint*) {
  return {"derating_point", "Points of a derating table"};
}
inline RecordInfo info_of(const Surface*) { return {"surface", "Surfaces"}; }
inline RecordInfo info_of(const Row*) { return {"row", "Rows"}; }
inline RecordInfo info_of(const Rows*) { return {"rows", "Many like rows"}; }
inline RecordInfo info_of(const String*) { return {"string", "Strings"}; }
inline RecordInfo info_of(const Strings*) { return {"strings", "Many like strings"}; }
inline RecordInfo info_of(const StringException*) {
  return {"string_exception", "Strings that differ"};
}
inline RecordInfo info_of(const LengthPattern*) {
  return {"length_pattern", "Lengths that grow from string to string"};
}
inline RecordInfo info_of(const Box*) { return {"box", "Boxes"}; }
inline RecordInfo info_of(const PlaceAt*) { return {"place_at", "Where a box hangs"}; }
inline RecordInfo info_of(const Slot*) { return {"slot", "String devices of a box"}; }
inline RecordInfo info_of(const SlotException*) { return {"slot_exception", "Slots that differ"}; }
inline RecordInfo info_of(const HomeRun*) { return {"home_run", "Home runs of a box"}; }
inline RecordInfo info_of(const Run*) { return {"run", "Runs"}; }
inline RecordInfo info_of(const RunWire*) { return {"run_wire", "Wire of a run"}; }
inline RecordInfo info_of(const Segment*) { return {"segment", "Segments"}; }
inline RecordInfo info_of(const Equipment*) { return {"equipment", "Equipment"}; }
inline RecordInfo info_of(const Battery*) { return {"battery", "Battery"}; }
inline RecordInfo info_of(const Input*) { return {"input", "Inputs"}; }
inline RecordInfo info_of(const ControllerOutput*) {
  return {"controller_output", "Output of a controller"};
}
inline RecordInfo info_of(const LoadCentre*) { return {"load_centre", "Load centre"}; }
inline RecordInfo info_of(const Diversion*) { return {"diversion", "Diversion load"}; }
inline RecordInfo info_of(const Disconnect*) { return {"disconnect", "Disconnects"}; }
inline RecordInfo info_of(const WorkingSpace*) { return {"working_space", "Working space"}; }
inline RecordInfo info_of(const Connector*) { return {"connector", "Connectors"}; }
inline RecordInfo info_of(const Study*) { return {"study", "Engineer's study"}; }
inline RecordInfo info_of(const AsBuilt*) { return {"as_built", "As built"}; }
inline RecordInfo info_of(const Waiver*) { return {"waiver", "Waivers"}; }

}  // namespace stringwright::job
