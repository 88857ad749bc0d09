// The same function for many items in a few threads, with a result that does not depend on how many.
#pragma once

#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace deckquire {

/// Calls work(state, i) once for every i in [0, count), from at most `jobs` threads, each with a
/// state of its own made by make_state(). The caller's thread is one of them. When calls throw, the
/// exception of the lowest i is thrown again after all threads have ended.
template <class MakeState, class Work>
void for_each_index(std::size_t count, int jobs, MakeState make_state, Work work) {
  std::atomic<std::size_t> next{0};
  std::vector<std::exception_ptr> failed(count);
  std::exception_ptr no_state;
  std::atomic<bool> stateless{false};
  auto run = [&] {
    try {
      auto state = make_state();
      for (std::size_t i; (i = next++) < count;) {
        try {
          work(state, i);
        } catch (...) {
          failed[i] = std::current_exception();
        }
      }
    } catch (...) {
      if (!stateless.exchange(true)) no_state = std::current_exception();
    }
  };
  {
    std::vector<std::jthread> threads;
    for (std::size_t t = 1; t < count && t < static_cast<std::size_t>(jobs > 1 ? jobs : 1); ++t)
      threads.emplace_back(run);
    run();
  }
  if (no_state) std::rethrow_exception(no_state);
  for (const auto& e : failed)
    if (e) std::rethrow_exception(e);
}

}  // namespace deckquire
