#include "ui/brew/lane_board.h"

#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"

namespace likeleaf::ui {

using namespace brewing;

LaneBoard lane_board(const Trial& trial, int sitting, const Moment& now, bool with_lot, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  BenchBoard facts = bench_board(trial, sitting, now, with_lot);
  LaneBoard board{{}, {}, facts.now, facts.end, text(wording::hold_name(plan, style))};
  for (auto& lane : facts.lanes) {
    const Brew& brew = *lane.brew;
    QString label = QStringLiteral("brew %1").arg(brew.number);
    const Lot* lot = with_lot ? find_record(trial.sealed->registers.lots, brew.lot) : nullptr;
    if (lot) label += QStringLiteral(" · ") + text(lot->code);
    const QString said = label + QStringLiteral(": ") + text(wording::progress_text(plan, brew));
    board.lanes.push_back({brew.id, brew.number, label, said, std::move(lane.segments)});
  }
  for (const auto& mark : facts.marks)
    board.marks.push_back({mark.at, mark.lane_from, mark.lane_to,
                           (mark.served ? QStringLiteral("served ") : QStringLiteral("serve ")) +
                               text(wording::pair_name(mark.pair.place, mark.pair.again))});
  return board;
}

}  // namespace likeleaf::ui
