#include "ui/plan/sections.h"

#include <algorithm>

namespace likeleaf::ui {

QStringList lot_codes(const PlanEditor& editor) {
  QStringList out;
  for (const auto& lot : editor.registers().lots) out << qt(lot.code);
  return out;
}

int lot_place(const PlanEditor& editor, IdOf<Lot> id) {
  const auto& lots = editor.registers().lots;
  const auto found = std::ranges::find(lots, id, &Lot::id);
  return found == lots.end() ? -1 : static_cast<int>(found - lots.begin());
}

IdOf<Lot> lot_at(const PlanEditor& editor, int at) {
  const auto& lots = editor.registers().lots;
  return at >= 0 && at < static_cast<int>(lots.size()) ? lots[static_cast<std::size_t>(at)].id : IdOf<Lot>();
}

QStringList level_names(const Plan& plan, const Style& style) {
  QStringList out;
  for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) {
    const QString said = qt(level_text(plan.lever, i, style));
    out << (said.isEmpty() ? QStringLiteral("level %1").arg(i + 1) : said);
  }
  return out;
}

QString attribute_name(const PlanEditor& editor, const std::string& id) {
  const auto* a = find_attribute(editor.attributes(), id);
  return a ? qt(a->name) : qt(id);
}

}  // namespace likeleaf::ui
