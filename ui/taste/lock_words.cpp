#include "ui/taste/lock_words.h"

#include <QStringList>
#include <algorithm>
#include <map>

#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

QString spoken(std::string field) {
  for (auto& c : field)
    if (c == '_' || c == '.') c = ' ';
  return text(field);
}

/// Fields as a taster calls them: of three bands "aroma base", and three blank bands are one blank aroma.
QStringList gathered(const std::vector<std::string>& fields, const std::vector<Attribute>& attributes) {
  QStringList out;
  std::set<std::string> whole;  // banded attributes that were said in one word
  for (const auto& field : fields) {
    const std::string id(attribute_of_field(field));
    const auto* attribute = find_attribute(attributes, id);
    if (!attribute || attribute->scale != Scale::register_bands) {
      out << spoken(field);
      continue;
    }
    const auto of_it = [&](const std::string& other) { return attribute_of_field(other) == id; };
    if (std::ranges::count_if(fields, of_it) < 3)
      out << QStringLiteral("aroma ") + spoken(field.substr(id.size() + 1));
    else if (whole.insert(id).second)
      out << QStringLiteral("aroma");
  }
  return out;
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
  for (const auto& one : review.blank) out.push_back("blank " + mark_place(one.side, one.field));
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

QString LockWords::name(const LockReview& review, const BlindServing& serving,
                        const std::vector<Attribute>& attributes) {
  LockReview fresh;
  const auto take = [this](const std::vector<std::string>& all, const char* kind, std::vector<std::string>& out) {
    for (const auto& one : all)
      if (named_.insert(kind + one).second) out.push_back(one);
  };
  for (const auto& one : review.blank)
    if (named_.insert("blank " + mark_place(one.side, one.field)).second) fresh.blank.push_back(one);
  take(review.unanswered, "answer ", fresh.unanswered);
  take(review.contradictions, "against ", fresh.contradictions);
  std::map<std::string, std::vector<std::string>> by_code;
  for (const auto& blank : fresh.blank)
    by_code[(blank.side == Side::left ? serving.left : serving.right).text()].push_back(blank.field);
  QStringList blanks, lines;
  for (const auto& [code, fields] : by_code)
    blanks << QStringLiteral("Blank on cup %1: %2.")
                  .arg(text(code), gathered(fields, attributes).join(QStringLiteral(", ")));
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
          return SheetChange{mark_place(side, field), gathered({field}, attributes).front() + cup};
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
