#include "wiring/builder.hpp"

#include <utility>

namespace stringwright::wiring {

int Builder::device(DeviceKind kind, std::string id, std::string label, std::string owner,
                    Span span) {
  Device d;
  d.kind = kind;
  d.id = std::move(id);
  d.label = std::move(label);
  d.owner = std::move(owner);
  d.span = span;
  w.devices.push_back(std::move(d));
  return static_cast<int>(w.devices.size()) - 1;
}

int Builder::terminal(int device, std::string suffix, std::string label, Pole pole, int number) {
  Terminal t;
  t.id = w.devices[static_cast<std::size_t>(device)].id + "." + suffix;
  t.label = std::move(label);
  t.device = device;
  t.pole = pole;
  t.number = number;
  w.terminals.push_back(std::move(t));
  const int index = static_cast<int>(w.terminals.size()) - 1;
  w.devices[static_cast<std::size_t>(device)].terminals.push_back(index);
  return index;
}

int Builder::conductor(ConductorKind kind, std::string id, std::string tag, Pole pole, int from,
                       int to, Span span) {
  Conductor c;
  c.kind = kind;
  c.id = std::move(id);
  c.tag = std::move(tag);
  c.pole = pole;
  c.from = from;
  c.to = to;
  c.span = span;
  w.conductors.push_back(std::move(c));
  return static_cast<int>(w.conductors.size()) - 1;
}

void Builder::problem(std::string id, std::string message, Span span, std::string help) {
  Diagnostic d;
  d.severity = Severity::error;
  d.id = std::move(id);
  d.message = std::move(message);
  d.help = std::move(help);
  d.span = span;
  problems.push_back(std::move(d));
}

DevicePoles device_poles(const job::Grounding& g) {
  if (g.devices_in) {
    switch (*g.devices_in) {
      case job::DevicesIn::plus:
        return {true, false};
      case job::DevicesIn::minus:
        return {false, true};
      case job::DevicesIn::both:
        return {true, true};
    }
  }
  const bool plus_grounded =
      g.scheme && *g.scheme != job::Scheme::ungrounded && g.pole && *g.pole == job::Pole::plus;
  return {!plus_grounded, plus_grounded};
}

}  // namespace stringwright::wiring
