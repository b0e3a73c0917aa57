#include "core/acts/bench_board.h"

#include <algorithm>

#include "core/domain/asked.h"

namespace likeleaf {
namespace {

constexpr std::int64_t stale = 2 * 3'600'000;  // a board looked at hours later is history: no line of now
constexpr std::int64_t hold_of_a_plan_without = 600'000;
constexpr std::int64_t shortest_board = 120'000;

std::int64_t longest_hold(const Plan& plan) {
  const auto held = asked(plan, ConstantKind::longest_hold);
  return held ? std::clamp<std::int64_t>(held->value, 0, stale) : hold_of_a_plan_without;
}

int lane_of(const BenchBoard& board, IdOf<Brew> id) {
  const auto found = std::ranges::find_if(board.lanes, [&](const BenchLane& lane) { return lane.brew->id == id; });
  return found == board.lanes.end() ? -1 : static_cast<int>(found - board.lanes.begin());
}

/// The hold of a pair's lanes ends when it is served; until then it lasts to the moment when both could be.
void add_holds(const Trial& trial, int sitting, const Bench& bench, BenchBoard& board) {
  for (const auto& pair : pairs_of_sitting(trial, sitting)) {
    const auto keyed = resolve_pair(trial, pair.id);
    if (!keyed) continue;
    const int a = lane_of(board, keyed->cup_a.brew), b = lane_of(board, keyed->cup_b.brew);
    if (a < 0 || b < 0) continue;
    const auto served = trial.served.find(pair.id);
    const bool done = served != trial.served.end() && served->second.served && bench.origin;
    const auto ready = [&](int lane) {
      const auto& segments = board.lanes[static_cast<std::size_t>(lane)].segments;
      return segments.empty() ? std::int64_t{0} : segments.back().to;
    };
    std::int64_t at = std::max(ready(a), ready(b));
    if (done)
      at = elapsed(*bench.origin, *served->second.served).count();
    else if (bench.now > at)
      at = std::min(bench.now, at + longest_hold(bench.plan));
    for (const int lane : {a, b}) {
      auto& segments = board.lanes[static_cast<std::size_t>(lane)].segments;
      if (!segments.empty() && segments.back().part != CoursePart::hold && at > ready(lane))
        segments.push_back({CoursePart::hold, ready(lane), at, !done});
    }
    board.marks.push_back({at, std::min(a, b), std::max(a, b), pair, done});
  }
}

}  // namespace

BenchBoard bench_board(const Trial& trial, int sitting, const Moment& now, bool keyed) {
  BenchBoard board;
  const Plan& plan = trial.sealed->plan;
  const auto brews = brews_of_sitting(trial, sitting);
  Bench bench{plan, usual_times(trial), first_pour(brews), 0, 0, keyed};
  const Brew* newest = last_stamped(brews);
  const bool live = !newest || elapsed(last_stamp(*newest)->at, now).count() < stale;
  if (bench.origin) bench.now = elapsed(*bench.origin, live ? now : last_stamp(*newest)->at).count();
  if (newest) bench.hands = bench.now;
  for (const auto* brew : brews) board.lanes.push_back({brew, course_of(*brew, bench)});
  if (keyed) add_holds(trial, sitting, bench, board);
  if (live && bench.origin) board.now = bench.now;
  board.end = std::max(shortest_board, live ? bench.now : 0);
  for (const auto& lane : board.lanes)
    for (const auto& segment : lane.segments) board.end = std::max(board.end, segment.to);
  return board;
}

}  // namespace likeleaf
