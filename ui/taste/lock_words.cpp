#include "ui/taste/lock_words.h"

#include <QStringList>
#include <map>

namespace likeleaf::ui {

QString lock_words(const LockReview& review, const std::vector<Attribute>& attributes) {
  std::map<QString, QStringList> by_cup;
  for (const auto& blank : review.blank) {
    const QString text = QString::fromStdString(blank);
    const auto comma = text.lastIndexOf(QStringLiteral(", "));
    by_cup[comma < 0 ? QString() : text.mid(comma + 2)] << text.left(comma);
  }
  QStringList parts;
  for (const auto& [cup, fields] : by_cup)
    parts << QStringLiteral("Blank on %1: %2.").arg(cup, fields.join(QStringLiteral(", ")));
  QStringList disagree;
  for (const auto& id : review.contradictions) {
    const auto* attribute = find_attribute(attributes, id);
    disagree << QString::fromStdString(attribute ? attribute->name : id).toLower();
  }
  if (!disagree.isEmpty())
    parts << QStringLiteral("Your answer and your scores point different ways on %1.")
                 .arg(disagree.join(QStringLiteral(", ")));
  if (!parts.isEmpty()) parts << QStringLiteral("Both may stay: lock as it is, or go back.");
  return parts.join(QLatin1Char(' '));
}

}  // namespace likeleaf::ui
