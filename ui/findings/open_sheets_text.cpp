#include "ui/findings/open_sheets_text.h"

#include <algorithm>
#include <map>
#include <vector>

namespace likeleaf::ui {
namespace {

// "pair 3", "pairs 1–4", "pairs 1, 3–5"
QString places_text(const std::vector<int>& places) {
  QStringList runs;
  for (std::size_t i = 0; i < places.size();) {
    std::size_t end = i;
    while (end + 1 < places.size() && places[end + 1] == places[end] + 1) ++end;
    runs << (end == i ? QString::number(places[i])
                      : QStringLiteral("%1%2%3")
                            .arg(places[i])
                            .arg(end == i + 1 ? QStringLiteral(", ") : QStringLiteral("–"))
                            .arg(places[end]));
    i = end + 1;
  }
  return (places.size() == 1 ? QStringLiteral("pair ") : QStringLiteral("pairs ")) + runs.join(QStringLiteral(", "));
}

QString sitting_text(int sitting, std::vector<int> places) {
  std::ranges::sort(places);
  const bool warm_up = !places.empty() && places.front() == 0;
  if (warm_up) places.erase(places.begin());
  QString out = QStringLiteral("sitting %1, ").arg(sitting);
  if (warm_up) out += places.empty() ? QStringLiteral("warm-up") : QStringLiteral("warm-up and ");
  return places.empty() ? out : out + places_text(places);
}

}  // namespace

QStringList open_sheets_lines(const Trial& trial) {
  if (!trial.sealed) return {};
  std::map<IdOf<Assessor>, std::map<int, std::vector<int>>> open;
  for (const BlindServing* serving : open_sheets(trial))
    open[serving->assessor][serving->sitting].push_back(serving->place);
  QStringList lines;
  for (const auto assessor : tasters(trial.sealed->plan)) {
    const auto found = open.find(assessor);
    if (found == open.end()) continue;
    QStringList sittings;
    for (const auto& [sitting, places] : found->second) sittings << sitting_text(sitting, places);
    const auto* who = find_record(trial.sealed->registers.assessors, assessor);
    lines << (who ? QString::fromStdString(who->alias) : QStringLiteral("?")) + QStringLiteral(": ") +
                 sittings.join(QStringLiteral("; "));
  }
  return lines;
}

}  // namespace likeleaf::ui
