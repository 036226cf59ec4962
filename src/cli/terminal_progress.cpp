#include "terminal_progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>

namespace evenlit {
namespace {

double now_s() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

}  // namespace

TerminalProgress::TerminalProgress(std::string doing) : doing_(std::move(doing)), started_s_(now_s()) {}

TerminalProgress::~TerminalProgress() {
  if (is_shown_) std::fputs("\r\033[K", stderr);
}

Progress TerminalProgress::progress() {
  if (isatty(STDERR_FILENO) == 0) return {};
  return [this](double done) { show(done); };
}

void TerminalProgress::show(double done) {
  constexpr double k_patience_s = 1;
  if (now_s() - started_s_ < k_patience_s) return;
  is_shown_ = true;
  std::fputs(fmt::format("\r{}: {:3.0f} %", doing_, 100 * done).c_str(), stderr);
}

}  // namespace evenlit
