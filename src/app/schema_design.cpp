#include "app/schema_design.hpp"

namespace stringwright::app {

std::string design_replies() {
  return R"json(    { "$ref": "#/definitions/parts-list" },
    { "$ref": "#/definitions/part-reply" },
    { "$ref": "#/definitions/parts-change" },
    { "$ref": "#/definitions/parts-mistakes" },
    { "$ref": "#/definitions/cuts" },
    { "$ref": "#/definitions/design" },
    { "$ref": "#/definitions/bom" },
    { "$ref": "#/definitions/layouts" })json";
}

std::string design_definitions() {
  return R"json(    "part_line": {
      "type": "object",
      "required": ["kind", "id", "title", "own"],
      "additionalProperties": false,
      "properties": {
        "kind": { "type": "string" },
        "id": { "type": "string" },
        "title": { "type": "string" },
        "own": { "type": "boolean", "description": "from the person's own library, else a default" }
      }
    },
    "parts-list": {
      "type": "object",
      "required": ["kind", "parts"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "parts-list" },
        "parts": { "type": "array", "items": { "$ref": "#/definitions/part_line" } }
      }
    },
    "part-reply": {
      "type": "object",
      "required": ["kind", "part", "text"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "part" },
        "part": { "$ref": "#/definitions/part_line" },
        "text": { "type": "string", "description": "as it would stand in a job file" }
      }
    },
    "parts-change": {
      "type": "object",
      "required": ["kind", "library", "added", "replaced", "unchanged"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "parts-change" },
        "library": { "type": "string" },
        "added": { "type": "integer", "minimum": 0 },
        "replaced": { "type": "integer", "minimum": 0 },
        "unchanged": { "type": "integer", "minimum": 0 }
      }
    },
    "parts-mistakes": {
      "type": "object",
      "required": ["kind", "file", "diagnostics"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "parts-mistakes" },
        "file": { "type": "string" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } }
      }
    },
    "cut_piece": {
      "description": "one piece of a cable: from its plug at the string to the box",
      "type": "object",
      "required": ["tag", "need_m", "length_m", "spare_m", "plug", "at_string", "at_box"],
      "additionalProperties": false,
      "properties": {
        "tag": { "type": "string" },
        "need_m": { "type": "number", "description": "path and tail, from the wiring graph" },
        "length_m": { "type": "number" },
        "spare_m": { "type": "number" },
        "plug": { "type": "string", "description": "which plug of the cable it keeps: the one that mates with module + or module -" },
        "at_string": { "type": "string", "description": "label for the end at the string" },
        "at_box": { "type": "string", "description": "label for the end in the box" }
      }
    },
    "cuts": {
      "type": "object",
      "required": ["kind", "file", "usable", "diagnostics"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "cuts" },
        "file": { "type": "string" },
        "usable": { "type": "boolean" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } },
        "by": { "enum": ["price", "cables"], "description": "what was made least; cables: their number, then their length" },
        "proved": { "type": "boolean", "description": "no cheaper plan exists over the stock given" },
        "bought_m": { "type": "number" },
        "needed_m": { "type": "number" },
        "price": { "type": ["string", "null"] },
        "price_date": { "type": ["string", "null"], "description": "oldest of the prices used" },
        "cables": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["number", "part", "family", "wire", "stock_m", "cut_m", "half_holds", "half_short_m", "pieces", "flags"],
            "additionalProperties": false,
            "properties": {
              "number": { "type": "integer", "minimum": 1 },
              "part": { "type": "string" },
              "family": { "type": "string" },
              "wire": { "type": "string" },
              "stock_m": { "type": "number" },
              "cut_m": { "type": "number", "description": "from the plug that mates with module +" },
              "half_holds": { "type": ["boolean", "null"], "description": "whether a cut in the middle would reach too; null: one piece only" },
              "half_short_m": { "type": ["number", "null"] },
              "pieces": { "type": "array", "items": { "$ref": "#/definitions/cut_piece" } },
              "flags": { "type": "array", "items": { "type": "string" } }
            }
          }
        },
        "reel": {
          "type": "array",
          "description": "pieces that no stock cable reaches: reel cable with a fitted connector",
          "items": {
            "type": "object",
            "required": ["piece", "family", "wire", "longest_stock_m"],
            "additionalProperties": false,
            "properties": {
              "piece": { "$ref": "#/definitions/cut_piece" },
              "family": { "type": "string" },
              "wire": { "type": "string" },
              "longest_stock_m": { "type": ["number", "null"] }
            }
          }
        },
        "buy": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["count", "part", "title", "length_m"],
            "additionalProperties": false,
            "properties": {
              "count": { "type": "integer", "minimum": 1 },
              "part": { "type": "string" },
              "title": { "type": "string" },
              "length_m": { "type": "number", "description": "of one; of a reel: of all" }
            }
          }
        },
        "advice": { "type": "array", "items": { "type": "string" } },
        "cannot_tell": { "type": "array", "items": { "type": "string" } }
      }
    },
    "design_score": {
      "type": "object",
      "required": ["fail", "cannot_tell", "caution"],
      "additionalProperties": { "type": "integer", "minimum": 0 }
    },
    "design": {
      "type": "object",
      "required": ["kind", "file", "usable", "diagnostics"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "design" },
        "file": { "type": "string" },
        "usable": { "type": "boolean" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } },
        "before": { "$ref": "#/definitions/design_score" },
        "after": { "$ref": "#/definitions/design_score" },
        "asked": { "type": "integer", "description": "how often check was asked" },
        "proved": { "type": "boolean", "description": "no combination is better; false: the search stopped early, this is the best it saw" },
        "chosen": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["key", "value", "what", "reason", "runner_up", "at"],
            "additionalProperties": false,
            "properties": {
              "key": { "type": "string" },
              "value": { "type": "string" },
              "what": { "type": "string" },
              "reason": { "type": "string" },
              "runner_up": { "type": "string" },
              "at": { "$ref": "#/definitions/span" }
            }
          }
        },
        "open": {
          "type": "array",
          "description": "left to a person, and why",
          "items": {
            "type": "object",
            "required": ["key", "why", "at"],
            "additionalProperties": false,
            "properties": {
              "key": { "type": "string" },
              "why": { "type": "string" },
              "at": { "$ref": "#/definitions/span" }
            }
          }
        }
      }
    },
    "bom": {
      "type": "object",
      "required": ["kind", "file", "usable", "diagnostics"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "bom" },
        "file": { "type": "string" },
        "usable": { "type": "boolean" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } },
        "lines": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["group", "quantity", "unit", "part", "what", "where", "torque", "note", "price"],
            "additionalProperties": false,
            "properties": {
              "group": { "type": "string" },
              "quantity": { "type": "number" },
              "unit": { "type": "string", "description": "empty for pieces" },
              "part": { "type": "string" },
              "what": { "type": "string" },
              "where": { "type": "string" },
              "torque": { "type": "string" },
              "note": { "type": "string" },
              "price": { "type": ["string", "null"] }
            }
          }
        },
        "remarks": { "type": "array", "items": { "type": "string" } }
      }
    },
    "layouts": {
      "type": "object",
      "required": ["kind", "file", "usable", "diagnostics", "inputs"],
      "additionalProperties": false,
      "properties": {
        "kind": { "const": "layouts" },
        "file": { "type": "string" },
        "usable": { "type": "boolean" },
        "diagnostics": { "type": "array", "items": { "$ref": "#/definitions/diagnostic" } },
        "inputs": {
          "type": "array",
          "items": {
            "type": "object",
            "required": ["input", "module", "modules", "refused", "first_refused", "fits"],
            "additionalProperties": false,
            "properties": {
              "input": { "type": "string" },
              "module": { "type": "string" },
              "modules": { "type": "integer" },
              "refused": { "type": "integer", "description": "counts that a rule fails" },
              "first_refused": { "type": "string" },
              "fits": {
                "type": "array",
                "items": {
                  "type": "object",
                  "required": ["series", "parallel", "now", "front", "v_cold_v", "v_record_v", "v_table_v", "v_hot_v",
                               "margin_cold_v", "p_hot_w", "i_sc_a", "needs_devices", "spare_slots", "cautions", "cannot_tell"],
                  "additionalProperties": false,
                  "properties": {
                    "series": { "type": "integer" },
                    "parallel": { "type": "integer" },
                    "now": { "type": "boolean" },
                    "front": { "type": "boolean", "description": "no other is as good in every way and better in one" },
                    "v_cold_v": { "type": "number" },
                    "v_record_v": { "type": ["number", "null"] },
                    "v_table_v": { "type": ["number", "null"] },
                    "v_hot_v": { "type": "number" },
                    "margin_cold_v": { "type": ["number", "null"] },
                    "p_hot_w": { "type": "number" },
                    "i_sc_a": { "type": "number" },
                    "needs_devices": { "type": ["boolean", "null"] },
                    "spare_slots": { "type": ["integer", "null"] },
                    "cautions": { "type": "array", "items": { "type": "string" } },
                    "cannot_tell": { "type": "array", "items": { "type": "string" } }
                  }
                }
              }
            }
          }
        }
      }
    })json";
}

}  // namespace stringwright::app
