#include "stop_request.hpp"

#include <atomic>

namespace evenlit {
namespace {

std::atomic<bool> is_asked = false;
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may only touch what needs no lock");

void ask(int) { is_asked = true; }

}  // namespace

StopRequest::StopRequest() {
  is_asked = false;
  struct sigaction once {};
  once.sa_handler = ask;
  once.sa_flags = static_cast<int>(SA_RESTART | SA_RESETHAND);
  sigaction(SIGINT, nullptr, &before_);
  if (before_.sa_handler != SIG_IGN) sigaction(SIGINT, &once, nullptr);
}

StopRequest::~StopRequest() { sigaction(SIGINT, &before_, nullptr); }

bool StopRequest::is_made() { return is_asked; }

}  // namespace evenlit
