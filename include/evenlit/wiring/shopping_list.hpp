#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/wiring/take_off.hpp"

namespace evenlit {

/// What to buy of one thing.
struct ShoppingItem {
  std::string what;  ///< "can \"six_inch\"", "14/2 cable with ground, coil of 250'"
  int count = 0;
  std::optional<double> price;  ///< of one, in the job's currency

  [[nodiscard]] std::optional<double> cost() const { return price ? std::optional(count * *price) : std::nullopt; }
};

/// What a job needs for its light.
struct ShoppingList {
  std::vector<ShoppingItem> items;    ///< each once or more
  std::vector<CableLength> loose;     ///< cable of which no coils are told
  double priced = 0;                  ///< of the items that have a price
  bool has_prices = false;            ///< whether any has
  bool is_complete = true;            ///< whether all have, loose cable too
  std::optional<double> hours;        ///< of work; empty where the job tells none
  std::optional<double> labour_cost;  ///< empty where hours or rate are not told
  std::optional<double> total;        ///< of items with a price and labour; empty where there are neither
};

/// Counts by rule: an old-work box for each switch place; a ceiling box for a feed in the ceiling and for each can that
/// hangs from it or stands on a wall; cable connectors, one for each cable end in a recessed can or in a ceiling box
/// (switch boxes for old work clamp their cables themselves); wire connectors, three in each can and box (black, white,
/// ground); staples over the ceiling, none in closed walls; a steel plate for each cable that comes down a wall, where
/// the hole in the top plate seldom meets its middle, and two for each hole whose joist asks for it. Common practice,
/// no source, where `cable_rules.hpp` names none.
///
/// @param job with [wiring]
/// @param take_off of the job
ShoppingList shopping_list(const Job& job, const TakeOff& take_off);

}  // namespace evenlit
