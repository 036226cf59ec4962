#include "held_signals.hpp"

#include <catch2/catch.hpp>
#include <thread>

namespace {

volatile std::sig_atomic_t seen = 0;

void see(int signal) { seen = signal; }

}  // namespace

TEST_CASE("a signal waits until the work is done, then takes its usual course", "[cli]") {
  const int signal = GENERATE(SIGINT, SIGTERM, SIGHUP);
  seen = 0;
  auto* const before = std::signal(signal, see);
  {
    const evenlit::HeldSignals held;
    std::raise(signal);
    std::thread([&] { std::raise(signal); }).join();
    CHECK(seen == 0);
  }
  CHECK(seen == signal);
  seen = 0;
  std::raise(signal);
  CHECK(seen == signal);
  std::signal(signal, before);
}

TEST_CASE("a signal that is ignored stays ignored", "[cli]") {
  auto* const before = std::signal(SIGHUP, SIG_IGN);
  {
    const evenlit::HeldSignals held;
    std::raise(SIGHUP);
  }
  CHECK(std::signal(SIGHUP, before) == SIG_IGN);
}
