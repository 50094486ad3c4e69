#include "arrange/listener.hpp"

#include <chrono>
#include <thread>

#include <gtest/gtest.h>

namespace farflung::arrange {
namespace {

TEST(Listener, WhoSaidStopHearsNoMoreOfARunThatWaitedMeanwhile) {
  int calls = 0;
  std::thread other;
  Listener* all = nullptr;
  Listener listener([&](const Progress&) {
    ++calls;
    if (calls > 1) return false;
    other = std::thread([&] { EXPECT_FALSE(all->hear(1, 0.5, {}, {})); });
    std::this_thread::sleep_for(std::chrono::milliseconds(100));  // by now it waits for its turn
    return false;
  });
  all = &listener;
  listener.begin_stage(2, 1);
  EXPECT_FALSE(listener.hear(0, 0.5, {}, {}));
  other.join();
  EXPECT_EQ(calls, 1);
  EXPECT_TRUE(listener.stopped());
}

}  // namespace
}  // namespace farflung::arrange
