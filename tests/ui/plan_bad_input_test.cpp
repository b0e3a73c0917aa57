// Whatever is typed or pasted into any field of the plan: a sentence at the field and the old value, or the new value.
#include <gtest/gtest.h>

#include <map>

#include "core/codec/value_text.h"
#include "tests/ui/plan_desk.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::test {
namespace {

enum class Takes { number, number_or_nothing, name, sentence, paragraphs };

struct Field {
  const char* object;
  Takes takes;
  bool may_be_empty = true;
};

const std::vector<Field>& fields() {
  static const std::vector<Field> all{
      {"question", Takes::sentence},
      {"level.0", Takes::number_or_nothing},
      {"level.1", Takes::number_or_nothing},
      {"constant.0", Takes::number_or_nothing},
      {"constant.0.tolerance", Takes::number_or_nothing},
      {"constant.1", Takes::number_or_nothing},
      {"constant.1.tolerance", Takes::number_or_nothing},
      {"constant.2", Takes::number_or_nothing},
      {"constant.2.tolerance", Takes::number_or_nothing},
      {"constant.3", Takes::sentence},
      {"constant.3.record.name", Takes::name, false},
      {"constant.3.record.hardness", Takes::number_or_nothing},
      {"constant.3.record.alkalinity", Takes::number_or_nothing},
      {"constant.3.record.tds", Takes::number_or_nothing},
      {"constant.3.record.ph", Takes::number_or_nothing},
      {"constant.3.record.notes", Takes::paragraphs},
      {"constant.4", Takes::sentence},
      {"constant.4.record.name", Takes::name, false},
      {"constant.4.record.material", Takes::sentence},
      {"constant.4.record.mass", Takes::number_or_nothing},
      {"constant.4.record.volume", Takes::number_or_nothing},
      {"constant.4.record.notes", Takes::paragraphs},
      {"constant.5", Takes::sentence},
      {"constant.6", Takes::sentence},
      {"constant.7", Takes::number_or_nothing},
      {"constant.7.tolerance", Takes::number_or_nothing},
      {"constant.8", Takes::sentence},
      {"constant.9", Takes::sentence},
      {"constant.10", Takes::sentence},
      {"constant.10.name", Takes::name},
      {"lot.0.code", Takes::name, false},
      {"lot.0.name", Takes::sentence},
      {"lot.0.stock", Takes::number_or_nothing},
      {"lot.0.moisture", Takes::number_or_nothing},
      {"lot.0.cultivar", Takes::sentence},
      {"lot.0.origin", Takes::sentence},
      {"lot.0.harvest", Takes::sentence},
      {"lot.0.allergens", Takes::sentence},
      {"lot.0.notes", Takes::paragraphs},
      {"brew_pairs", Takes::number, false},
      {"pairs_per_sitting", Takes::number, false},
      {"sittings", Takes::number, false},
      {"cup", Takes::number, false},
      {"attribute.body.margin", Takes::number, false},
      {"attribute.sweetness.margin", Takes::number, false},
      {"attribute.savoury.margin", Takes::number, false},
      {"attribute.bitterness.margin", Takes::number, false},
      {"attribute.astringency.margin", Takes::number, false},
      {"attribute.finish_structure.margin", Takes::number, false},
      {"attribute.finish_length.margin", Takes::number, false},
      {"attribute.aroma_register.margin", Takes::number, false},
      {"attribute.own_1.margin", Takes::number, false},
      {"attribute.own_1.name", Takes::name, false},
      {"attribute.own_1.definition", Takes::sentence},
      {"attribute.own_1.low", Takes::sentence},
      {"attribute.own_1.high", Takes::sentence},
      {"attribute.own_1.more", Takes::name},
      {"attribute.own_1.less", Takes::name},
      {"attribute.own_1.word", Takes::name},
      {"clause.0.by", Takes::number, false},
      {"rule.action", Takes::sentence},
      {"person.0", Takes::name, false},
      {"person.0.notes", Takes::paragraphs},
      {"control.0.dilution", Takes::number, false},
      {"reference.words", Takes::paragraphs},
      {"exclusion_rule", Takes::paragraphs},
      {"alpha", Takes::number, false},
      {"house", Takes::name},
      {"notes", Takes::paragraphs},
  };
  return all;
}

void open_everything(PlanDesk& d) {
  d.begin();
  d.pick("constant.3.record", "a new water");
  d.pick("constant.4.record", "a new vessel");
  d.pick("constant.add", "other constant");
  d.click("lot.add");
  d.click("attribute.own.add");
  d.click("rule.add");
  d.click("person.add");
  d.click("person.0.facts");
  d.click("control.add");
  d.pick("control.0.kind", "yardstick");
}

QString value_in(QWidget* field) {
  if (auto* line = qobject_cast<QLineEdit*>(field)) return line->text();
  return qobject_cast<QTextEdit*>(field)->toPlainText();
}

QString message_at(QWidget* field) {
  if (auto* line = qobject_cast<ui::BlankLine*>(field->parentWidget())) return line->message();
  return qobject_cast<ui::BlankText*>(field->parentWidget())->message();
}

std::string everything(const PlanDesk& d) {
  const auto& session = *d.session;
  std::string out = codec::text_of(d.plan()) + codec::text_of(session.registers());
  for (const auto& a : session.attributes()) out += codec::text_of(a);
  return out;
}

bool refuses(const Field& field, const std::string& what) {
  const bool number = field.takes == Takes::number || field.takes == Takes::number_or_nothing;
  if (what == "nothing") return !field.may_be_empty;
  if (number) return true;
  if (what == "too much") return true;
  if (what == "paragraphs") return field.takes == Takes::name || field.takes == Takes::sentence;
  return false;  // letters, signs and every script are text
}

const std::map<std::string, QString>& entries() {
  static const std::map<std::string, QString> all{
      {"nothing", {}},
      {"too much", QString(5000, QLatin1Char('9'))},
      {"letters", QStringLiteral("soon")},
      {"paragraphs",
       QStringLiteral("A pasted paragraph that goes on for a while.\n\nAnd another, with a\ttab.\r\n").repeated(8)},
      {"emoji", QString::fromUtf8("🍵🍃")},
      {"right to left", QString::fromUtf8("שמונים מעלות")},
  };
  return all;
}

TEST(PlanBadInput, every_field_that_can_be_written_in_is_in_the_table) {
  PlanDesk d;
  open_everything(d);
  QStringList listed;
  for (const auto& field : fields()) listed << QString::fromLatin1(field.object);
  int seen = 0;
  for (auto* w : d.screen->findChildren<QWidget*>()) {
    const bool writes = qobject_cast<QLineEdit*>(w) || qobject_cast<QTextEdit*>(w);
    if (!writes || w->objectName().isEmpty()) continue;
    ++seen;
    EXPECT_TRUE(listed.contains(w->objectName())) << w->objectName().toStdString();
  }
  EXPECT_EQ(seen, static_cast<int>(fields().size()));
}

class PlanBadEntry : public ::testing::TestWithParam<std::string> {};

TEST_P(PlanBadEntry, is_a_sentence_at_the_field_with_the_old_value_or_is_taken_whole) {
  PlanDesk d;
  open_everything(d);
  const QString entry = entries().at(GetParam());
  for (const auto& field : fields()) {
    auto* there = d.child<QWidget>(field.object);
    ASSERT_NE(there, nullptr) << field.object;
    const QString before = value_in(there);
    const std::string kept = everything(d);
    d.write(field.object, entry);
    there = d.child<QWidget>(field.object);
    ASSERT_NE(there, nullptr) << field.object;
    if (refuses(field, GetParam()) && before != entry) {
      EXPECT_FALSE(message_at(there).isEmpty()) << field.object;
      EXPECT_EQ(value_in(there), before) << field.object;
      EXPECT_EQ(everything(d), kept) << field.object;
    } else {
      EXPECT_TRUE(message_at(there).isEmpty()) << field.object << ": " << message_at(there).toStdString();
      if (!entry.isEmpty()) {
        EXPECT_NE(everything(d), kept) << field.object << " took nothing";
      }
    }
  }
  EXPECT_EQ(QApplication::activeModalWidget(), nullptr) << "no dialog asks anything";
  EXPECT_TRUE(d.session->flush().has_value());
}

INSTANTIATE_TEST_SUITE_P(Entries, PlanBadEntry,
                         ::testing::Values("nothing", "too much", "letters", "paragraphs", "emoji", "right to left"),
                         [](const auto& one) {
                           std::string name = one.param;
                           std::replace(name.begin(), name.end(), ' ', '_');
                           return name;
                         });

TEST(PlanBadInput, a_schedule_and_an_own_lever_refuse_as_the_rest_does) {
  PlanDesk d;
  d.begin();
  d.pick("lever", "brew schedule");
  d.click("level.0.infusion.add");
  const auto before = d.plan();
  for (const char* part : {"level.0.infusion.0.pour", "level.0.infusion.0.steep", "level.0.infusion.0.water"})
    for (const auto& [what, entry] : entries()) {
      d.write(part, entry);
      EXPECT_FALSE(message_at(d.child<QWidget>(part)).isEmpty()) << part << " " << what;
      EXPECT_EQ(d.plan(), before) << part << " " << what;
    }
  d.write("level.0", QString(400, QLatin1Char('x')));
  EXPECT_FALSE(message_at(d.child<QWidget>("level.0")).isEmpty());
  EXPECT_EQ(d.plan(), before);
}

TEST(PlanBadInput, a_code_or_an_initial_that_is_taken_is_refused_at_its_field) {
  PlanDesk d;
  d.begin();
  d.click("lot.add");
  d.click("lot.add");
  d.write("lot.1.code", "L-01");
  EXPECT_EQ(d.session->registers().lots[1].code, "L-02");
  EXPECT_FALSE(message_at(d.child<QWidget>("lot.1.code")).isEmpty());
  d.click("person.add");
  d.click("person.add");
  d.write("person.1", "A.");
  EXPECT_EQ(d.session->registers().assessors[1].alias, "B.");
  EXPECT_FALSE(message_at(d.child<QWidget>("person.1")).isEmpty());
}

TEST(PlanBadInput, a_good_entry_after_a_refused_one_clears_the_sentence) {
  PlanDesk d;
  d.begin();
  d.write("level.0", "hot");
  EXPECT_FALSE(message_at(d.child<QWidget>("level.0")).isEmpty());
  d.write("level.0", "90");
  EXPECT_TRUE(message_at(d.child<QWidget>("level.0")).isEmpty());
  EXPECT_EQ(d.plan().lever.levels[0].value, 90'000);
}

TEST(PlanBadInput, degrees_fahrenheit_and_a_decimal_comma_are_read_and_shown) {
  PlanDesk d(Style{TemperatureUnit::fahrenheit, ','});
  d.begin();
  d.write("level.0", "190,4");
  EXPECT_EQ(d.plan().lever.levels[0].value, 88'000);
  EXPECT_EQ(d.child<QLineEdit>("level.0")->text(), QString::fromUtf8("190,4\u00A0°F"));
  d.write("constant.0", "4,5");
  EXPECT_EQ(d.plan().constants[0].target, 4'500);
  d.write("constant.7.tolerance", "3,6");
  EXPECT_EQ(d.plan().constants[7].tolerance, 2'000);
}

}  // namespace
}  // namespace likeleaf::test
