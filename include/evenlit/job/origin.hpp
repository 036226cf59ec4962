#pragma once

#include "evenlit/base/result.hpp"

namespace evenlit {

/// Where a part of the job was written. Not part of the part's value: any two compare equal.
struct Origin {
  Place place;
  friend bool operator==(const Origin&, const Origin&) { return true; }
};

}  // namespace evenlit
