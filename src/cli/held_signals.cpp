#include "held_signals.hpp"

namespace evenlit {
namespace {

volatile std::sig_atomic_t arrived = 0;

void note(int signal) { arrived = signal; }

}  // namespace

// Handlers, not a signal mask: a mask would hold the signal back from this thread only, and any other takes it.
HeldSignals::HeldSignals() {
  arrived = 0;
  struct sigaction hold {};
  hold.sa_handler = note;
  hold.sa_flags = SA_RESTART;
  for (std::size_t i = 0; i < k_held.size(); ++i) {
    sigaction(k_held[i], nullptr, &before_[i]);
    if (before_[i].sa_handler != SIG_IGN) sigaction(k_held[i], &hold, nullptr);
  }
}

HeldSignals::~HeldSignals() {
  for (std::size_t i = 0; i < k_held.size(); ++i) sigaction(k_held[i], &before_[i], nullptr);
  if (arrived != 0) std::raise(arrived);
}

}  // namespace evenlit
