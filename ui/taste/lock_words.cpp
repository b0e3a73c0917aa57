#include "ui/taste/lock_words.h"

#include <QStringList>
#include <map>

#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

QString spoken(std::string field) {
  for (auto& c : field)
    if (c == '_' || c == '.') c = ' ';
  return text(field);
}

/// "aroma register base" is "aroma base" to a taster, and three blank bands are one blank aroma.
QStringList gathered(QStringList fields, const std::vector<Attribute>& attributes) {
  for (const auto& attribute : attributes) {
    if (attribute.scale != Scale::register_bands) continue;
    const QString begins = spoken(attribute.id) + QLatin1Char(' ');
    QStringList bands;
    for (const auto& field : fields)
      if (field.startsWith(begins)) bands << field;
    if (bands.isEmpty()) continue;
    const auto at = fields.indexOf(bands.front());
    for (const auto& band : bands) fields.removeAll(band);
    if (bands.size() == 3)
      fields.insert(at, QStringLiteral("aroma"));
    else
      for (auto i = bands.size() - 1; i >= 0; --i)
        fields.insert(at, QStringLiteral("aroma ") + bands[i].mid(begins.size()));
  }
  return fields;
}

QString names(const std::vector<std::string>& ids, const std::vector<Attribute>& attributes) {
  QStringList out;
  for (const auto& id : ids) {
    const auto* attribute = find_attribute(attributes, id);
    out << (attribute ? text(attribute->name).toLower() : text(id));
  }
  return out.join(QStringLiteral(", "));
}

std::vector<std::string> keys(const LockReview& review) {
  std::vector<std::string> out;
  for (const auto& one : review.blank) out.push_back("blank " + one);
  for (const auto& one : review.unanswered) out.push_back("answer " + one);
  for (const auto& one : review.contradictions) out.push_back("against " + one);
  return out;
}

}  // namespace

bool LockWords::has_news(const LockReview& review) const {
  for (const auto& key : keys(review))
    if (!named_.contains(key)) return true;
  return false;
}

QString LockWords::name(const LockReview& review, const std::vector<Attribute>& attributes) {
  LockReview fresh;
  const auto take = [this](const std::vector<std::string>& all, const char* kind, std::vector<std::string>& out) {
    for (const auto& one : all)
      if (named_.insert(kind + one).second) out.push_back(one);
  };
  take(review.blank, "blank ", fresh.blank);
  take(review.unanswered, "answer ", fresh.unanswered);
  take(review.contradictions, "against ", fresh.contradictions);
  std::map<QString, QStringList> by_cup;
  for (const auto& blank : fresh.blank) {
    const QString label = text(blank);
    const auto comma = label.lastIndexOf(QStringLiteral(", "));
    by_cup[comma < 0 ? QString() : label.mid(comma + 2)] << label.left(comma);
  }
  QStringList blanks, lines;
  for (const auto& [cup, fields] : by_cup)
    blanks << QStringLiteral("Blank on %1: %2.").arg(cup, gathered(fields, attributes).join(QStringLiteral(", ")));
  if (!blanks.isEmpty()) lines << blanks.join(QLatin1Char(' '));
  if (!fresh.unanswered.empty())
    lines << QStringLiteral("No answer which cup has more: %1.").arg(names(fresh.unanswered, attributes));
  if (!fresh.contradictions.empty())
    lines << QStringLiteral("Your answer and your scores point different ways: %1. Both may stay.")
                 .arg(names(fresh.contradictions, attributes));
  return lines.join(QLatin1Char('\n'));
}

std::string mark_place(Side side, const std::string& field) {
  return (side == Side::left ? "left " : "right ") + field;
}
std::string words_place(Side side) {
  return side == Side::left ? "left words" : "right words";
}
std::string fault_place(Side side) {
  return side == Side::left ? "left fault" : "right fault";
}
std::string answer_place(const std::string& attribute) {
  return "answer " + attribute;
}

std::optional<SheetChange> change_between(const Sheet& before, const Sheet& after, const BlindServing& serving,
                                          const std::vector<Attribute>& attributes) {
  for (const Side side : {Side::left, Side::right}) {
    const CupMarks &old = before.cup(side), &now = after.cup(side);
    const QString cup =
        QStringLiteral(", cup %1").arg(text((side == Side::left ? serving.left : serving.right).text()));
    for (const auto& attribute : attributes)
      for (const auto& field : mark_fields(attribute)) {
        const auto a = old.marks.find(field), b = now.marks.find(field);
        const bool was = a != old.marks.end(), is = b != now.marks.end();
        if (was != is || (was && a->second != b->second))
          return SheetChange{mark_place(side, field), gathered({spoken(field)}, attributes).front() + cup};
      }
    if (old.words != now.words) return SheetChange{words_place(side), QStringLiteral("words") + cup};
    if (old.fault != now.fault || old.fault_note != now.fault_note)
      return SheetChange{fault_place(side), QStringLiteral("fault") + cup};
  }
  for (const auto& attribute : attributes) {
    const auto a = before.directs.find(attribute.id), b = after.directs.find(attribute.id);
    const bool was = a != before.directs.end(), is = b != after.directs.end();
    if (was != is || (was && a->second != b->second))
      return SheetChange{answer_place(attribute.id),
                         QStringLiteral("%1, which cup has more").arg(text(attribute.name).toLower())};
  }
  if (before.note != after.note) return SheetChange{note_place, QStringLiteral("note on this pair")};
  if (before.sipped_first != after.sipped_first)
    return SheetChange{"first", QStringLiteral("which cup was sipped first")};
  return std::nullopt;
}

}  // namespace likeleaf::ui
