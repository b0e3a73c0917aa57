#include "ui/brew/note_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include "core/acts/bench_sitting.h"
#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "core/wording/amount_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {

using namespace brewing;

namespace {

/// What the plan asks of the first blanks, in the order of the blanks.
constexpr ConstantKind kinds[] = {ConstantKind::leaf_dose, ConstantKind::water_mass, ConstantKind::water_temperature,
                                  ConstantKind::steep_time};
constexpr int hundredths = 2;

/// Reads one typed fact; an empty line takes the fact back.
template <class T>
Result<void> take(const std::string& words, Result<T> read, std::optional<T>& into) {
  if (words.empty()) {
    into.reset();
    return {};
  }
  if (!read) return tl::unexpected<Error>(read.error());
  into = *read;
  return {};
}

}  // namespace

NotePanel::NotePanel(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  const Tokens& t = tokens();
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  refused_ = label({}, face(15), t.caution, this);
  refused_->setObjectName(QStringLiteral("note_message"));
  refused_->hide();
  down->addLayout(build_first());
  down->addLayout(build_second());
  down->addWidget(refused_);
  connect(reading_, &BlankLine::typed, this, &NotePanel::put_reading);
  connect(brew_, &QComboBox::currentIndexChanged, this, &NotePanel::show_values);
  connect(infusion_, &QComboBox::currentIndexChanged, this, &NotePanel::show_values);
}

BlankLine* NotePanel::blank(Field field, const QString& spoken, const char* object) {
  auto* out = new BlankLine(spoken, {}, this);
  out->line()->setObjectName(QString::fromLatin1(object));
  out->say_in(refused_);
  connect(out, &BlankLine::typed, this, [this, field](const QString& typed) { put(field, typed); });
  blanks_[field] = out;
  return out;
}

QLayout* NotePanel::build_first() {
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(0);
  const auto add = [&](const QString& name, QWidget* field, int stretch) {
    const int column = grid->columnCount();
    grid->addWidget(label(name, face(15), tokens().soft_ink, this), 0, column);
    grid->addWidget(field, 1, column, Qt::AlignTop);
    grid->setColumnStretch(column, stretch);
  };
  brew_ = choice(QStringLiteral("Brew to note"), "note_brew", this);
  add(QStringLiteral("note for"), brew_, 0);
  add(QStringLiteral("leaf"), blank(leaf, QStringLiteral("Leaf mass, grams"), "note_leaf"), 2);
  infusion_ = choice(QStringLiteral("Infusion"), "note_infusion", this);
  add(QStringLiteral("infusion"), infusion_, 0);
  add(QStringLiteral("water"), blank(water, QStringLiteral("Water mass, grams"), "note_water"), 2);
  add(QStringLiteral("pour"), blank(pour, QStringLiteral("Pour temperature"), "note_pour"), 2);
  add(QStringLiteral("steep"), blank(steep, QStringLiteral("Steep, when it was not stamped"), "note_steep"), 2);
  place_ = choice(QStringLiteral("Where it was read"), "reading_place", this);
  for (const char* where : {"liquor", "bath", "kettle"})
    place_->addItem(QString::fromLatin1(where), QString::fromLatin1(where));
  add(QStringLiteral("reading in"), place_, 0);
  reading_ = new BlankLine(QStringLiteral("Temperature reading now"), {}, this);
  reading_->line()->setObjectName(QStringLiteral("reading"));
  reading_->say_in(refused_);
  add(QStringLiteral("temperature"), reading_, 2);
  last_ = label({}, face(15), tokens().soft_ink, this);
  last_->setObjectName(QStringLiteral("last_reading"));
  add(QStringLiteral("last reading"), last_, 3);
  return grid;
}

/// One line: what few brews need.
QLayout* NotePanel::build_second() {
  auto* across = new QHBoxLayout;
  across->setSpacing(10);
  const auto add = [&](const QString& name, BlankLine* field, int stretch) {
    auto* l = label(name, face(15), tokens().soft_ink, this);
    l->setWordWrap(false);
    l->setContentsMargins(0, 0, 0, 5);  // on one line with what is written
    across->addWidget(l, 0, Qt::AlignBottom);
    across->addWidget(field, stretch, Qt::AlignBottom);
    across->addSpacing(8);
  };
  add(QStringLiteral("strength"), blank(strength, QStringLiteral("Strength, per cent TDS"), "note_tds"), 2);
  add(QStringLiteral("pH"), blank(acidity, QStringLiteral("pH"), "note_ph"), 1);
  add(QStringLiteral("chilled another way"),
      blank(chilled, QStringLiteral("Chilled another way than planned"), "note_chill"), 5);
  add(QStringLiteral("note"), blank(remark, QStringLiteral("Note on this brew"), "note_text"), 6);
  blanks_[strength]->line()->setPlaceholderText(QStringLiteral("% TDS"));
  blanks_[chilled]->line()->setPlaceholderText(QStringLiteral("as planned"));
  return across;
}

std::shared_ptr<const Brew> NotePanel::brew() const {
  const auto trial = session_.trial();
  const auto id = IdOf<Brew>::parse(brew_->currentData().toString().toStdString());
  if (!trial || !id) return nullptr;
  const auto found = trial->brews.find(*id);
  return found == trial->brews.end() ? nullptr : found->second;
}

std::size_t NotePanel::infusion() const {
  return static_cast<std::size_t>(std::max(0, infusion_->currentIndex()));
}

void NotePanel::refresh(int sitting, bool keyed) {
  keyed_ = keyed;
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  std::vector<Entry> entries;
  for (const auto* one : brews_of_sitting(*trial, sitting))
    entries.push_back({QStringLiteral("brew %1").arg(one->number), text(one->id.text())});
  fill(brew_, entries);
  show_values();
}

void NotePanel::show_brew(IdOf<Brew> brew) {
  const int at = brew_->findData(text(brew.text()));
  if (at >= 0) brew_->setCurrentIndex(at);
}

void NotePanel::write_reading() {
  reading_->line()->setFocus();
}

void NotePanel::show_values() {
  const auto one = brew();
  const auto trial = session_.trial();
  if (!one) return;
  const Plan& plan = trial->sealed->plan;
  std::vector<Entry> infusions;
  for (int i = 1; i <= infusion_count(plan, *one); ++i) infusions.push_back({QString::number(i), QString::number(i)});
  fill(infusion_, infusions);
  infusion_->setEnabled(infusions.size() > 1);
  for (std::size_t i = 0; i < fields; ++i) {
    blanks_[i]->set_value(noted(*one, static_cast<Field>(i)));
    if (i > steep) continue;
    const auto wanted = keyed_ ? asked(plan, kinds[i], one->level, static_cast<int>(infusion()) + 1) : std::nullopt;
    blanks_[i]->line()->setPlaceholderText(wanted ? text(wording::amount_text(kinds[i], wanted->value, style_))
                                                  : QString());
  }
  if (one->readings.empty()) {
    last_->setText(QStringLiteral("none yet"));
  } else {
    const Reading& r = one->readings.back();
    last_->setText(QStringLiteral("%1, %2, %3")
                       .arg(text(temperature_text(r.temperature, style_)), text(r.place), text(clock_text(r.at))));
  }
}

/// What stands of a field, as it is shown; empty where nothing was noted.
QString NotePanel::noted(const Brew& brew, Field field) const {
  const Infusion none;
  const Infusion& one = infusion() < brew.infusions.size() ? brew.infusions[infusion()] : none;
  const auto decimal = [&](const std::optional<std::int64_t>& value) {
    return value ? text(decimal_text(*value, hundredths, hundredths, style_)) : QString();
  };
  switch (field) {
    case leaf:
      return brew.leaf ? text(mass_text(*brew.leaf, style_)) : QString();
    case water:
      return one.water ? text(mass_text(*one.water, style_)) : QString();
    case pour:
      return one.pour ? text(temperature_text(*one.pour, style_)) : QString();
    case steep:
      return one.steep ? text(duration_text(*one.steep, style_)) : QString();
    case strength:
      return brew.tds_permyriad ? decimal(brew.tds_permyriad) + QStringLiteral("\u00A0%") : QString();
    case acidity:
      return decimal(brew.ph_hundredths);
    case chilled:
      return text(brew.chill);
    case remark:
    case fields:
      break;
  }
  return text(brew.note);
}

Result<PutBrewFacts> NotePanel::facts_with(const Brew& brew, Field field, const QString& typed) const {
  PutBrewFacts facts{brew.id, brew.leaf, brew.infusions, brew.tds_permyriad, brew.ph_hundredths, brew.chill, brew.note};
  const std::string words = typed.trimmed().toStdString();
  const bool of_infusion = field == water || field == pour || field == steep;
  if (of_infusion && facts.infusions.size() <= infusion()) facts.infusions.resize(infusion() + 1);
  Infusion unused;
  Infusion& one = of_infusion ? facts.infusions[infusion()] : unused;
  Result<void> read;
  switch (field) {
    case leaf:
      read = take(words, parse_mass(words, "leaf"), facts.leaf);
      break;
    case water:
      read = take(words, parse_mass(words, "water"), one.water);
      break;
    case pour:
      read = take(words, parse_temperature(words, style_, "pour temperature"), one.pour);
      break;
    case steep:
      read = take(words, parse_duration(words, "steep"), one.steep);
      break;
    case strength: {
      const QString number = typed.trimmed().endsWith(QLatin1Char('%')) ? typed.trimmed().chopped(1) : typed;
      read = take(words,
                  parse_decimal(number.trimmed().toStdString(), hundredths, 0, 10'000, "strength", "0 to 100 % TDS"),
                  facts.tds_permyriad);
      break;
    }
    case acidity:
      read = take(words, parse_decimal(words, hundredths, 0, 1'400, "pH", "0 to 14"), facts.ph_hundredths);
      break;
    case chilled:
      facts.chill = words;
      break;
    case remark:
    case fields:
      facts.note = words;
      break;
  }
  if (!read) return tl::unexpected<Error>(read.error());
  return facts;
}

void NotePanel::put(Field field, const QString& typed) {
  const auto one = brew();
  if (!one) return;
  const auto facts = facts_with(*one, field, typed);
  std::optional<Error> wrong;
  if (!facts)
    wrong = facts.error();
  else if (const auto kept = session_.run(*facts); !kept)
    wrong = kept.error();
  const auto now = brew();
  blanks_[field]->set_value(now ? noted(*now, field) : QString(), true);
  blanks_[field]->set_message(wrong ? said(*wrong) : QString());
}

void NotePanel::put_reading(const QString& typed) {
  const auto one = brew();
  if (!one || typed.trimmed().isEmpty()) return;
  const auto read = parse_temperature(typed.trimmed().toStdString(), style_, "temperature");
  std::optional<Error> wrong;
  if (!read)
    wrong = read.error();
  else if (const auto kept = session_.run(PutReading{one->id, *read, place_->currentData().toString().toStdString()});
           !kept)
    wrong = kept.error();
  reading_->set_value({}, true);
  reading_->set_message(wrong ? said(*wrong) : QString());
}

}  // namespace likeleaf::ui
