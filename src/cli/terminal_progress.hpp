#pragma once

#include <string>

#include "evenlit/base/progress.hpp"

namespace evenlit {

/// Tells a person at a terminal how far a computation has come, from the first second on; says nothing where standard
/// error is not a terminal. The line is wiped when this object ends.
class TerminalProgress {
 public:
  /// @param doing what is being done, like "computing the light"
  explicit TerminalProgress(std::string doing);
  ~TerminalProgress();
  TerminalProgress(const TerminalProgress&) = delete;
  TerminalProgress& operator=(const TerminalProgress&) = delete;

  [[nodiscard]] Progress progress();

 private:
  void show(double done);

  std::string doing_;
  bool is_shown_ = false;
  double started_s_;
};

}  // namespace evenlit
