#pragma once

#include <csignal>

namespace evenlit {

/// While this object lives, the first Ctrl-C asks a long computation to end with what it has; the second ends the
/// process as usual. One object at a time.
class StopRequest {
 public:
  StopRequest();
  ~StopRequest();
  StopRequest(const StopRequest&) = delete;
  StopRequest& operator=(const StopRequest&) = delete;

  /// May be asked by any thread.
  [[nodiscard]] static bool is_made();

 private:
  struct sigaction before_ {};
};

}  // namespace evenlit
