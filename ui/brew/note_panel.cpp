#include "ui/brew/note_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>

#include "core/base/number_text.h"
#include "ui/brew/brew_model.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {

using namespace brewing;

namespace {

constexpr ConstantKind kinds[] = {ConstantKind::leaf_dose, ConstantKind::water_mass, ConstantKind::water_temperature,
                                  ConstantKind::steep_time};

/// Reads one typed fact into the command; an empty line takes the fact back.
template <class T>
Result<void> take(Result<T> read, std::optional<T>& into) {
  if (!read) return tl::unexpected<Error>(read.error());
  into = *read;
  return {};
}

QString value_text(ConstantKind kind, std::int64_t value, const Style& style) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return text(mass_text(Mass(value), style));
    case ConstantKind::water_temperature:
      return text(temperature_text(Temperature(value), style));
    default:
      return text(duration_text(Duration(value), style));
  }
}

std::optional<std::int64_t> noted(const Brew& brew, ConstantKind kind, std::size_t infusion) {
  if (kind == ConstantKind::leaf_dose) return brew.leaf ? std::optional(brew.leaf->count()) : std::nullopt;
  if (infusion >= brew.infusions.size()) return std::nullopt;
  const Infusion& one = brew.infusions[infusion];
  if (kind == ConstantKind::water_mass) return one.water ? std::optional(one.water->count()) : std::nullopt;
  if (kind == ConstantKind::water_temperature)
    return one.pour ? std::optional(one.pour->milli_celsius()) : std::nullopt;
  return one.steep ? std::optional(one.steep->count()) : std::nullopt;
}

}  // namespace

NotePanel::NotePanel(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  const Tokens& t = tokens();
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(2);
  int column = 0;
  const auto add = [&](const QString& name, QWidget* field, int stretch) {
    grid->addWidget(label(name, face(15), t.soft_ink, this), 0, column);
    grid->addWidget(field, 1, column, Qt::AlignTop);
    grid->setColumnStretch(column++, stretch);
  };
  brew_ = choice(QStringLiteral("Brew to note"), "note_brew", this);
  add(QStringLiteral("note for"), brew_, 0);
  infusion_ = choice(QStringLiteral("Infusion"), "note_infusion", this);
  static constexpr const char* objects[] = {"note_leaf", "note_water", "note_pour", "note_steep"};
  const QString names[] = {QStringLiteral("leaf"), QStringLiteral("water"), QStringLiteral("pour"),
                           QStringLiteral("steep")};
  const QString spoken[] = {QStringLiteral("Leaf mass, grams"), QStringLiteral("Water mass, grams"),
                            QStringLiteral("Pour temperature"), QStringLiteral("Steep, when it was not stamped")};
  for (std::size_t i = 0; i < fields; ++i) {
    blanks_[i] = new BlankLine(spoken[i], {}, this);
    blanks_[i]->line()->setObjectName(QString::fromLatin1(objects[i]));
    add(names[i], blanks_[i], 2);
    connect(blanks_[i], &BlankLine::typed, this,
            [this, i](const QString& typed) { put(static_cast<Field>(i), typed); });
    if (i == leaf) add(QStringLiteral("infusion"), infusion_, 0);
  }
  place_ = choice(QStringLiteral("Where it was read"), "reading_place", this);
  for (const char* where : {"liquor", "bath", "kettle"})
    place_->addItem(QString::fromLatin1(where), QString::fromLatin1(where));
  add(QStringLiteral("reading in"), place_, 0);
  reading_ = new BlankLine(QStringLiteral("Temperature reading now"), {}, this);
  reading_->line()->setObjectName(QStringLiteral("reading"));
  add(QStringLiteral("temperature"), reading_, 2);
  last_ = label({}, face(15), t.soft_ink, this);
  last_->setObjectName(QStringLiteral("last_reading"));
  add(QStringLiteral("last reading"), last_, 3);
  connect(reading_, &BlankLine::typed, this, &NotePanel::put_reading);
  connect(brew_, &QComboBox::currentIndexChanged, this, &NotePanel::show_values);
  connect(infusion_, &QComboBox::currentIndexChanged, this, &NotePanel::show_values);
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
    const auto value = noted(*one, kinds[i], infusion());
    blanks_[i]->set_value(value ? value_text(kinds[i], *value, style_) : QString());
    const auto wanted = keyed_ ? asked(plan, kinds[i], one->level, static_cast<int>(infusion()) + 1) : std::nullopt;
    blanks_[i]->line()->setPlaceholderText(wanted ? value_text(kinds[i], *wanted, style_) : QString());
  }
  if (one->readings.empty()) {
    last_->setText(QStringLiteral("none yet"));
  } else {
    const Reading& r = one->readings.back();
    last_->setText(QStringLiteral("%1, %2, %3")
                       .arg(text(temperature_text(r.temperature, style_)), text(r.place), text(clock_text(r.at))));
  }
}

void NotePanel::put(Field field, const QString& typed) {
  const auto one = brew();
  if (!one) return;
  const std::string words = typed.trimmed().toStdString();
  PutBrewFacts facts{one->id, one->leaf, one->infusions, one->tds_permyriad, one->ph_hundredths, one->chill, one->note};
  if (facts.infusions.size() <= infusion() && field != leaf) facts.infusions.resize(infusion() + 1);
  Result<void> read;
  const bool none = words.empty();
  if (field == leaf) none ? facts.leaf.reset() : void(read = take(parse_mass(words, "leaf"), facts.leaf));
  if (field == water)
    none ? facts.infusions[infusion()].water.reset()
         : void(read = take(parse_mass(words, "water"), facts.infusions[infusion()].water));
  if (field == pour)
    none ? facts.infusions[infusion()].pour.reset()
         : void(read = take(parse_temperature(words, style_, "pour temperature"), facts.infusions[infusion()].pour));
  if (field == steep)
    none ? facts.infusions[infusion()].steep.reset()
         : void(read = take(parse_duration(words, "steep"), facts.infusions[infusion()].steep));
  if (read) {
    if (const auto kept = session_.run(facts); !kept) read = tl::unexpected<Error>(kept.error());
  }
  const auto now = brew();
  const auto value = now ? noted(*now, kinds[field], infusion()) : std::nullopt;
  blanks_[field]->set_value(value ? value_text(kinds[field], *value, style_) : QString(), true);
  blanks_[field]->set_message(read ? QString() : said(read.error()));
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
