#include "app/json.hpp"
#include "app/schema_design.hpp"

namespace stringwright::app {

std::string reply_schema() {
  return std::string(R"json({
  "$schema": "http://json-schema.org/draft-07/schema#",
  "title": "Stringwright replies",
  "description": "What the commands print with --json. Generated: stringwright schema reply. Keys end in their unit.",
  "oneOf": [
    { "$ref": "#/definitions/check" },
    { "$ref": "#/definitions/compare" },
    { "$ref": "#/definitions/papers" },
    { "$ref": "#/definitions/events" },
    { "$ref": "#/definitions/explain" },
    { "$ref": "#/definitions/labels" },
    { "$ref": "#/definitions/new" },
)json") + design_replies() +
         R"json(
  ],
  "definitions": {
)json" + design_definitions() +
         R"json(,
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
      "required": ["id", "kind", "place", "title", "cause", "gate", "load", "like", "solved", "failure", "danger", "verdict",
                   "notes", "fault_a", "gap_v", "gap_most_v", "heat_w", "opened", "left_a", "cleared", "ground_fault_device",
                   "in_the_dark_a", "while_working_a", "devices", "bears", "live"],
      "additionalProperties": false,
      "properties": {
        "id": { "type": "string", "description": "kind@place" },
        "kind": { "type": "string" },
        "place": { "type": "string" },
        "title": { "type": "string" },
        "cause": { "enum": ["equipment fault", "work error"] },
        "gate": { "type": ["string", "null"], "description": "work error: the reading that finds it before anything is closed on it" },
        "load": { "enum": ["idle", "working", "battery"] },
        "like": { "type": "array", "items": { "type": "string" } },
        "solved": { "type": "boolean", "description": "false: no number below holds; failure says why" },
        "failure": { "type": ["string", "null"] },
        "danger": { "enum": ["none", "live", "not-always", "nothing-trips", "breaks"] },
        "verdict": { "type": "string" },
        "notes": { "type": "array", "items": { "type": "string" } },
        "fault_a": { "type": "number", "description": "largest through the fault itself" },
        "gap_v": { "type": ["number", "null"], "description": "across what is open, as the equipment works" },
        "gap_most_v": { "type": ["number", "null"], "description": "the same with the input drained to 0 V: what it can rise to" },
        "heat_w": { "type": ["number", "null"] },
        "opened": { "type": "array", "items": { "type": "string" } },
        "left_a": { "type": "number", "description": "through the fault after all of those have opened" },
        "cleared": { "type": "boolean" },
        "ground_fault_device": {
          "description": "what it makes of a fault to ground; null: not asked, or the job does not say what watches",
          "oneOf": [
            { "type": "null" },
            {
              "type": "object",
              "required": ["by", "seen", "rating_a", "least_a", "most_a", "above_w_m2", "why"],
              "additionalProperties": false,
              "properties": {
                "by": { "enum": ["residual-current", "insulation", "fuse", "breaker", "none"] },
                "seen": { "enum": ["seen", "at-start", "blind", "unsure"] },
                "rating_a": { "type": ["number", "null"] },
                "least_a": { "type": "number", "description": "what it sees in full sun; least and most differ where its resistance is not known" },
                "most_a": { "type": "number" },
                "above_w_m2": { "type": ["number", "null"], "description": "light from which on it reacts for sure" },
                "why": { "type": "string" }
              }
            }
          ]
        },
        "in_the_dark_a": { "type": ["number", "null"], "description": "largest in a device without light; where a battery stands at the input" },
        "while_working_a": { "type": ["number", "null"], "description": "in the worst device while the equipment works; where the event takes nothing and a device may open" },
        "live": { "type": "array", "description": "every terminal at the coldest cells, 1000 W/m², devices closed", "items": { "$ref": "#/definitions/live_at" } },
        "devices": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["name", "like", "direction", "worst_a", "i_a", "rating_a", "ratio", "response", "opens_above_w_m2",
                         "opens_above_cold_w_m2", "opens_above_hot_w_m2", "bound_n_minus_1_isc_w_m2", "against_marks",
                         "beyond_interrupt", "opens_in_s", "may_open_v", "opened_alone"],
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
              "opens_in_s": { "type": ["number", "null"], "description": "under the largest, by its part's printed curve" },
              "may_open_v": { "type": ["number", "null"] },
              "opened_alone": {
                "description": "the state when it alone has opened, coldest cells, 1000 W/m²; null: not solved",
                "oneOf": [{ "type": "null" }, { "$ref": "#/definitions/opened_alone" }]
              }
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
              "what": { "enum": ["module-reverse", "bypass-diode", "connector", "conductor"] },
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
    "opened_alone": {
      "type": "object",
      "required": ["recovery_v", "recovery_in_voc", "recovery_floats", "fault_a", "largest_a", "largest_at", "still_tied_by",
                   "line", "load"],
      "additionalProperties": false,
      "properties": {
        "recovery_v": { "type": ["number", "null"], "description": "across it" },
        "recovery_in_voc": { "type": ["number", "null"] },
        "recovery_floats": { "type": "boolean" },
        "fault_a": { "type": "number", "description": "through the fault" },
        "largest_a": { "type": "number", "description": "in any device" },
        "largest_at": { "type": ["string", "null"] },
        "still_tied_by": { "type": "array", "description": "poles of the same device that stay closed", "items": { "type": "string" } },
        "line": { "$ref": "#/definitions/live_at" },
        "load": { "$ref": "#/definitions/live_at" }
      }
    },
    "live_at": {
      "type": "object",
      "required": ["terminals", "touch", "to_ground_v", "to_minus_v"],
      "additionalProperties": false,
      "properties": {
        "terminals": { "type": "array", "description": "one point of the circuit", "items": { "type": "string" } },
        "touch": { "enum": ["LIVE", "FLOAT", "GROUND", "DEAD"], "description": "FLOAT: treat as live; DEAD is not proven" },
        "to_ground_v": { "type": ["number", "null"], "description": "null: nothing holds it against ground" },
        "to_minus_v": { "type": ["number", "null"], "description": "against the minus of its input" }
      }
    },
    "labels": {
      "type": "object",
      "required": ["kind", "file", "job", "edition", "labels"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "labels" },
        "file": { "type": "string" },
        "job": { "type": "string" },
        "edition": { "type": "string" },
        "labels": {
          "type": "array",
          "description": "one for each label and place; those of which it can't be told whether they are due with them",
          "items": {
            "type": "object",
            "required": ["id", "title", "thing", "place", "due", "depends_on", "lines", "values", "words", "letters_mm", "colours", "asks", "cite", "status"],
            "additionalProperties": false,
            "properties": {
              "id": { "type": "string" },
              "title": { "type": "string" },
              "thing": { "type": "string" },
              "place": { "type": "string" },
              "due": { "type": ["boolean", "null"], "description": "null: can't be told; depends_on says why" },
              "depends_on": { "type": "string" },
              "lines": { "type": "array", "items": { "type": "string" } },
              "values": {
                "type": "array",
                "items": {
                  "type": "object",
                  "required": ["words", "number", "unit", "printed"],
                  "additionalProperties": false,
                  "properties": {
                    "words": { "type": "string" },
                    "number": { "type": ["number", "null"] },
                    "unit": { "type": ["string", "null"] },
                    "printed": { "type": "string", "description": "a blank line where not known" }
                  }
                }
              },
              "words": { "enum": ["yes", "values", "no"], "description": "yes: the code's words; values: its values, our words; no: our words" },
              "letters_mm": { "type": ["number", "null"], "description": "least height of capitals" },
              "colours": { "type": "string", "description": "letters on ground; empty: none given" },
              "asks": { "type": "string" },
              "cite": { "type": "string" },
              "status": { "type": "string" }
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
