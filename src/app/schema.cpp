#include "app/json.hpp"

namespace stringwright::app {

std::string reply_schema() {
  return R"json({
  "$schema": "http://json-schema.org/draft-07/schema#",
  "title": "Stringwright replies",
  "description": "What the commands print with --json. Generated: stringwright schema reply. Keys end in their unit.",
  "oneOf": [
    { "$ref": "#/definitions/check" },
    { "$ref": "#/definitions/compare" },
    { "$ref": "#/definitions/papers" },
    { "$ref": "#/definitions/events" },
    { "$ref": "#/definitions/explain" },
    { "$ref": "#/definitions/new" }
  ],
  "definitions": {
    "check": {
      "type": "object",
      "required": ["kind", "file", "usable", "diagnostics"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "check" },
        "file": { "type": "string" },
        "usable": { "type": "boolean", "description": "false: the job has a mistake; only diagnostics follow" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } },
        "job": { "type": "string" },
        "edition": { "type": "string" },
        "counts": {
          "type": "object",
          "required": ["modules", "strings", "boxes", "string_devices", "string_wires", "output_wires"],
          "additionalProperties": { "type": "integer", "minimum": 0 }
        },
        "fine": { "type": "boolean", "description": "no fail that is not waived, and nothing that cannot be told" },
        "tally": { "$ref": "#/definitions/tally" },
        "findings": { "type": "array", "items": { "$ref": "#/definitions/finding" } },
        "not_looked_at": {
          "type": "array",
          "description": "rules nobody has built yet: the reply says nothing about them",
          "items": {
            "type": "object",
            "required": ["id", "title"],
            "additionalProperties": false,
            "properties": { "id": { "type": "string" }, "title": { "type": "string" } }
          }
        },
        "choices": {
          "type": "array",
          "description": "what was put where the job says choose",
          "items": {
            "type": "object",
            "required": ["key", "value", "reason", "at"],
            "additionalProperties": false,
            "properties": {
              "key": { "type": "string" },
              "value": { "type": "string" },
              "reason": { "type": "string" },
              "at": { "$ref": "#/definitions/span" }
            }
          }
        },
        "operating": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["thing", "load", "cell_c", "sun_w_m2", "v_v", "i_a", "p_w", "lost_w"],
            "additionalProperties": false,
            "properties": {
              "thing": { "type": "string" },
              "load": { "enum": ["open circuit", "short circuit", "maximum power"] },
              "cell_c": { "type": "number" },
              "sun_w_m2": { "type": "number" },
              "v_v": { "type": ["number", "null"] },
              "i_a": { "type": ["number", "null"] },
              "p_w": { "type": ["number", "null"] },
              "lost_w": { "type": ["number", "null"] }
            }
          }
        },
        "remarks": { "type": "array", "items": { "type": "string" } }
      }
    },
    "compare": {
      "type": "object",
      "description": "the same job under every edition of one family: only what changes",
      "required": ["kind", "file", "usable", "job", "messages", "editions", "groups", "same", "notes"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "compare" },
        "file": { "type": "string" },
        "usable": { "type": "boolean", "description": "false: the job has a mistake; messages say which" },
        "job": { "type": "string" },
        "messages": { "type": "array", "items": { "type": "string" } },
        "editions": {
          "type": "array",
          "description": "oldest first",
          "items": {
            "type": "object",
            "required": ["id", "name", "own", "tally"],
            "additionalProperties": false,
            "properties": {
              "id": { "type": "string" },
              "name": { "type": "string" },
              "own": { "type": "boolean", "description": "the edition that the job names" },
              "tally": { "$ref": "#/definitions/tally" }
            }
          }
        },
        "groups": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["things", "changes", "savings"],
            "additionalProperties": false,
            "properties": {
              "things": { "type": "array", "items": { "type": "string" } },
              "changes": {
                "type": "array",
                "items": {
                  "type": "object",
                  "required": ["rule", "title", "verdict_changes", "sentence", "cheapest"],
                  "additionalProperties": false,
                  "properties": {
                    "rule": { "type": "string" },
                    "title": { "type": "string" },
                    "verdict_changes": { "type": "boolean" },
                    "sentence": { "type": "string" },
                    "cheapest": { "type": "array", "description": "what would mend it, by edition", "items": { "type": "string" } }
                  }
                }
              },
              "savings": { "type": "array", "items": { "type": "string" } }
            }
          }
        },
        "same": { "type": "integer", "minimum": 0, "description": "findings that say the same in all of them" },
        "notes": { "type": "array", "items": { "type": "string" } }
      }
    },
    "papers": {
      "type": "object",
      "required": ["kind", "file", "diagnostics", "written", "fine", "tally"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "papers" },
        "file": { "type": "string" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } },
        "written": { "type": "array", "items": { "type": "string" } },
        "fine": { "type": "boolean" },
        "tally": { "$ref": "#/definitions/tally" }
      }
    },
    "events": {
      "type": "object",
      "required": ["kind", "file", "job", "convention", "skies", "solutions", "remarks", "rows"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "events" },
        "file": { "type": "string" },
        "job": { "type": "string" },
        "convention": { "enum": ["US", "IEC gPV"], "description": "by which devices are taken to hold or open" },
        "skies": {
          "type": "array",
          "description": "the grid; lists of amps below have its order",
          "items": {
            "type": "object",
            "required": ["sun_w_m2", "cell_c"],
            "additionalProperties": false,
            "properties": { "sun_w_m2": { "type": "number" }, "cell_c": { "type": "number" } }
          }
        },
        "solutions": { "type": "integer", "description": "solutions of the circuit that the table took" },
        "remarks": { "type": "array", "items": { "type": "string" } },
        "rows": { "type": "array", "description": "worst first", "items": { "$ref": "#/definitions/event" } }
      }
    },
    "event": {
      "type": "object",
      "required": ["id", "kind", "place", "title", "cause", "load", "like", "solved", "failure", "danger", "verdict", "notes",
                   "fault_a", "gap_v", "heat_w", "opened", "left_a", "cleared", "devices", "bears"],
      "additionalProperties": false,
      "properties": {
        "id": { "type": "string", "description": "kind@place" },
        "kind": { "type": "string" },
        "place": { "type": "string" },
        "title": { "type": "string" },
        "cause": { "enum": ["equipment fault", "work error"] },
        "load": { "enum": ["idle", "working", "battery"] },
        "like": { "type": "array", "items": { "type": "string" } },
        "solved": { "type": "boolean", "description": "false: no number below holds; failure says why" },
        "failure": { "type": ["string", "null"] },
        "danger": { "enum": ["none", "live", "not-always", "nothing-trips", "breaks"] },
        "verdict": { "type": "string" },
        "notes": { "type": "array", "items": { "type": "string" } },
        "fault_a": { "type": "number", "description": "largest through the fault itself" },
        "gap_v": { "type": ["number", "null"] },
        "heat_w": { "type": ["number", "null"] },
        "opened": { "type": "array", "items": { "type": "string" } },
        "left_a": { "type": "number", "description": "through the fault after all of those have opened" },
        "cleared": { "type": "boolean" },
        "devices": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["name", "like", "direction", "worst_a", "i_a", "rating_a", "ratio", "response", "opens_above_w_m2",
                         "opens_above_cold_w_m2", "opens_above_hot_w_m2", "bound_n_minus_1_isc_w_m2", "against_marks",
                         "beyond_interrupt", "recovery_v", "recovery_in_voc", "recovery_floats", "may_open_v", "left_a"],
            "additionalProperties": false,
            "properties": {
              "name": { "type": "string" },
              "like": { "type": "array", "items": { "type": "string" } },
              "direction": { "type": "string" },
              "worst_a": { "type": "number", "description": "positive with the direction of normal service" },
              "i_a": { "type": "array", "items": { "type": "number" } },
              "rating_a": { "type": ["number", "null"] },
              "ratio": { "type": ["number", "null"] },
              "response": { "enum": ["holds", "may open", "opens", null] },
              "opens_above_w_m2": { "type": ["number", "null"] },
              "opens_above_cold_w_m2": { "type": ["number", "null"] },
              "opens_above_hot_w_m2": { "type": ["number", "null"] },
              "bound_n_minus_1_isc_w_m2": { "type": ["number", "null"], "description": "rule of thumb: every other string gives its Isc" },
              "against_marks": { "type": "boolean" },
              "beyond_interrupt": { "type": "boolean" },
              "recovery_v": { "type": ["number", "null"], "description": "across it when it alone opens" },
              "recovery_in_voc": { "type": ["number", "null"] },
              "recovery_floats": { "type": "boolean" },
              "may_open_v": { "type": ["number", "null"] },
              "left_a": { "type": ["number", "null"], "description": "through the fault when it alone has opened" }
            }
          }
        },
        "bears": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["what", "thing", "like", "i_a", "limit_a", "limit", "holds"],
            "additionalProperties": false,
            "properties": {
              "what": { "enum": ["module-reverse", "bypass-diode", "conductor"] },
              "thing": { "type": "string" },
              "like": { "type": "array", "items": { "type": "string" } },
              "i_a": { "type": "number" },
              "limit_a": { "type": ["number", "null"] },
              "limit": { "type": "string" },
              "holds": { "type": ["boolean", "null"] }
            }
          }
        }
      }
    },
    "explain": {
      "type": "object",
      "required": ["kind", "rule", "title", "asks", "aliases", "cited", "asked", "not_asked_in", "finding"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "explain" },
        "rule": { "type": "string" },
        "title": { "type": "string" },
        "asks": { "type": "string" },
        "aliases": { "type": "string" },
        "cited": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["edition", "cite", "status"],
            "additionalProperties": false,
            "properties": {
              "edition": { "type": "string" },
              "cite": { "type": "string" },
              "status": { "type": "string" }
            }
          }
        },
        "asked": {
          "type": "array",
          "description": "formulas and factors, editions that ask alike together, the newest first",
          "items": {
            "type": "object",
            "required": ["editions", "lines"],
            "additionalProperties": false,
            "properties": {
              "editions": { "type": "array", "items": { "type": "string" } },
              "lines": {
                "type": "array",
                "items": {
                  "type": "object",
                  "required": ["text", "words", "cite", "status"],
                  "additionalProperties": { "type": "string" }
                }
              }
            }
          }
        },
        "not_asked_in": { "type": "array", "items": { "type": "string" } },
        "finding": { "anyOf": [ { "type": "null" }, { "$ref": "#/definitions/finding" } ] }
      }
    },
    "new": {
      "type": "object",
      "required": ["kind", "written"],
      "additionalProperties": false,
      "properties": { "kind": { "const": "new" }, "written": { "type": "string" } }
    },
    "span": {
      "anyOf": [
        { "type": "null" },
        {
          "type": "object",
          "description": "lines and columns from 1, columns in code points, end exclusive",
          "required": ["line", "column", "end_line", "end_column"],
          "additionalProperties": { "type": "integer" }
        }
      ]
    },
    "diagnostic": {
      "type": "object",
      "required": ["severity", "id", "message", "help", "file", "at"],
      "additionalProperties": false,
      "properties": {
        "severity": { "enum": ["error", "question", "note"] },
        "id": { "type": "string" },
        "message": { "type": "string" },
        "help": { "type": "string" },
        "file": { "type": "string" },
        "at": { "$ref": "#/definitions/span" }
      }
    },
    "tally": {
      "type": "object",
      "required": ["fail", "cannot_tell", "caution", "on_site", "pass", "waived", "not_applicable", "not_looked_at"],
      "additionalProperties": { "type": "integer", "minimum": 0 }
    },
    "quantity": {
      "type": "object",
      "required": ["number", "unit", "printed"],
      "additionalProperties": false,
      "properties": { "number": { "type": "number" }, "unit": { "type": "string" }, "printed": { "type": "string" } }
    },
    "finding": {
      "type": "object",
      "required": ["id", "rule", "thing", "title", "verdict", "waived", "so", "also", "margin", "at", "trail"],
      "additionalProperties": false,
      "properties": {
        "id": { "type": "string", "description": "rule@thing" },
        "rule": { "type": "string" },
        "thing": { "type": "string" },
        "title": { "type": "string" },
        "verdict": { "enum": ["pass", "caution", "fail", "cannot-tell", "on-site", "not-applicable"] },
        "waived": {
          "anyOf": [
            { "type": "null" },
            {
              "type": "object",
              "required": ["reason", "by", "date"],
              "additionalProperties": { "type": "string" }
            }
          ]
        },
        "so": { "type": "string" },
        "also": { "type": "array", "items": { "type": "string" } },
        "flips": {
          "type": "array",
          "description": "with --flips: single changes that flip the verdict, the cheapest first",
          "items": {
            "type": "object",
            "required": ["lever", "to", "sentence"],
            "additionalProperties": false,
            "properties": { "lever": { "type": "string" }, "to": { "type": "string" }, "sentence": { "type": "string" } }
          }
        },
        "margin": {
          "anyOf": [
            { "type": "null" },
            {
              "type": "object",
              "required": ["limit", "label", "forbidden_above", "points"],
              "additionalProperties": false,
              "properties": {
                "limit": { "$ref": "#/definitions/quantity" },
                "label": { "type": "string" },
                "forbidden_above": { "type": "boolean" },
                "points": {
                  "type": "array",
                  "items": {
                    "type": "object",
                    "required": ["at", "label", "mark"],
                    "additionalProperties": false,
                    "properties": {
                      "at": { "$ref": "#/definitions/quantity" },
                      "label": { "type": "string" },
                      "mark": { "enum": ["chosen", "other", "record", "refused"] }
                    }
                  }
                }
              }
            }
          ]
        },
        "at": { "$ref": "#/definitions/span" },
        "trail": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["kind", "words", "symbol", "formula", "numbers", "value", "cite", "status", "text"],
            "additionalProperties": false,
            "properties": {
              "kind": { "enum": ["given", "factor", "table", "let", "require", "note"] },
              "words": { "type": "string" },
              "symbol": { "type": "string" },
              "formula": { "type": "string" },
              "numbers": { "type": "string" },
              "value": { "anyOf": [ { "type": "null" }, { "$ref": "#/definitions/quantity" } ] },
              "cite": { "type": "string" },
              "status": { "type": "string" },
              "text": { "type": "string" },
              "holds": { "type": ["boolean", "null"] }
            }
          }
        }
      }
    }
  }
}
)json";
}

}  // namespace stringwright::app
