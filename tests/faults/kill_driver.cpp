// Scores a sealed trial for ever, one mark a step, and prints "kept N" once step N is on disk. Killed by kill_test.
#include <unistd.h>

#include <cstdio>
#include <deque>
#include <string>

#include "core/session/session.h"

using namespace likeleaf;

namespace {

/// Steps that were handed over and not heard of yet.
using Waiting = std::deque<std::pair<Ticket, int>>;

void say(int step) {
  const std::string line = "kept " + std::to_string(step) + "\n";
  if (write(STDOUT_FILENO, line.data(), line.size()) < 0) _exit(4);
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) return 2;
  SystemClock clock;
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  auto session = Session::open(words[1], OpenWay::write, {clock, entropy, dispatcher});
  if (!session || !(*session)->take((*session)->ledger().at(0).id)) return 3;
  const auto serving = IdOf<Serving>::parse(words[2]);
  if (!serving) return 2;
  Waiting waiting;
  const auto hear = (*session)->on_kept([&](const Kept& kept) {
    if (kept.not_kept) _exit(5);
    while (!waiting.empty() && waiting.front().first <= kept.up_to) {
      say(waiting.front().second);
      waiting.pop_front();
    }
  });
  for (int step = 1;; ++step) {
    const auto ticket = (*session)->run(PutSheetNote{*serving, "step " + std::to_string(step)});
    // Beside it a row that stays, so that a step left out in the middle would show.
    Lot lot;
    lot.id = IdOf<Lot>::make(entropy);
    lot.code = "step " + std::to_string(step);
    const auto second = (*session)->put(lot);
    if (!ticket || !second) return 6;
    waiting.emplace_back(*second, step);
    dispatcher.pump();
    // Not further ahead than a person types, or the queue would only grow.
    if (waiting.size() > 8) {
      if (!(*session)->flush()) return 7;
      dispatcher.pump();
    }
  }
}
