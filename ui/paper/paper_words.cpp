#include "ui/paper/paper_words.h"

#include <QStringList>

#include "core/acts/paper_entry.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

constexpr int most_named = 12;

/// "a, b, c and 4 more"
QString listed(const QStringList& names) {
  const QString between = QStringLiteral(", ");
  if (names.size() <= most_named) return names.join(between);
  return QStringLiteral("%1 and %2 more").arg(names.mid(0, most_named).join(between)).arg(names.size() - most_named);
}

}  // namespace

QString field_name(const Attribute& attribute, const std::string& field) {
  QString name = text(attribute.name);
  if (!attribute.house_word.empty()) name += QStringLiteral(" · ") + text(attribute.house_word);
  const auto dot = field.find('.');
  return dot == std::string::npos ? name : QStringLiteral("%1: %2 notes").arg(name, text(field.substr(dot + 1)));
}

QString pair_name(const BlindServing& serving) {
  return serving.place == 0 ? QStringLiteral("warm-up pair") : QStringLiteral("pair %1").arg(serving.place);
}

QString paper_lock_words(const LockReview& review, const BlindServing& serving, const Sheet& sheet,
                         const std::vector<Attribute>& attributes) {
  const PaperProgress progress = paper_progress(attributes, sheet);
  if (progress.first == 0) return QStringLiteral("nothing is entered");
  QStringList parts;
  for (const Side side : {Side::left, Side::right}) {
    QStringList blank;
    int all = 0;
    for (const auto& attribute : attributes)
      for (const auto& field : mark_fields(attribute)) {
        ++all;
        if (!sheet.cup(side).marks.contains(field)) blank << field_name(attribute, field).toLower();
      }
    const QString cup = text((side == Side::left ? serving.left : serving.right).text());
    if (blank.isEmpty()) continue;
    parts << (blank.size() == all ? QStringLiteral("cup %1 is all blank").arg(cup)
                                  : QStringLiteral("blank on %1: %2").arg(cup, listed(blank)));
  }
  QStringList unanswered, disagree;
  for (const auto& attribute : attributes)
    if (attribute.direct && !sheet.directs.contains(attribute.id)) unanswered << text(attribute.name).toLower();
  if (!unanswered.isEmpty()) parts << QStringLiteral("no direct answer on %1").arg(listed(unanswered));
  for (const auto& id : review.contradictions)
    if (const auto* attribute = find_attribute(attributes, id)) disagree << text(attribute->name).toLower();
  if (!disagree.isEmpty())
    parts << QStringLiteral("answer and scores point different ways on %1").arg(disagree.join(QStringLiteral(", ")));
  if (!review.once.empty()) {
    QStringList once;
    for (const auto& label : review.once) once << text(label);
    const bool all = static_cast<int>(review.once.size()) == progress.first;
    parts << (all ? QStringLiteral("entered once: all %1 fields").arg(progress.first)
                  : QStringLiteral("entered once: %1").arg(listed(once)));
  }
  return parts.join(QStringLiteral("; "));
}

QString mismatch_words(const std::vector<Mismatch>& mismatches, char decimal_mark) {
  return text(mismatch_text(mismatches, decimal_mark)) + QLatin1Char('.');
}

}  // namespace likeleaf::ui
