#include "tables.hpp"

namespace evenlit {
namespace {

constexpr Range k_uniformity{{.value = 0, .text = "0", .is_included = false},
                             {.value = 1, .text = "1"},
                             "write the least light over the average: 0.4 asks for corners not darker than 40 % of it"};

}  // namespace

Wanted read_wanted(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "[wanted]", reader);
  Wanted wanted;
  wanted.minimum_lx = reader.illuminance_lx(fields.find("minimum"), "wanted minimum", k_target);
  wanted.uniformity = reader.fraction(fields.find("uniformity"), "wanted uniformity", k_uniformity);
  wanted.watts = reader.number(fields.find("watts"), "wanted watts", k_watts);
  wanted.cost = reader.number(fields.find("cost"), "wanted cost", k_money);
  wanted.from_walls_m = reader.length_m(fields.find("from_walls"), "wanted from_walls", k_distance);
  wanted.is_symmetric = reader.yes_or_no(fields.find("symmetric"), "wanted symmetric").value_or(false);
  fields.refuse_other_keys();
  return wanted;
}

}  // namespace evenlit
