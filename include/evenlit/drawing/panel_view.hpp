#pragma once

#include <string>
#include <vector>

#include "evenlit/base/image.hpp"

namespace evenlit {

/// The room as it will look, below a panel's plan, with what it is good for in a line or two.
struct PanelView {
  Image picture;
  std::vector<std::string> caption;
};

}  // namespace evenlit
