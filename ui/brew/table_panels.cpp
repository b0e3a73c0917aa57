#include "ui/brew/table_panels.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStringList>
#include <set>

#include "core/base/number_text.h"
#include "core/wording/cautions.h"
#include "ui/brew/brew_model.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {

using namespace brewing;

namespace {

void fill_pairs(QComboBox* choice, const Trial& trial, int sitting) {
  std::vector<Entry> entries;
  for (const auto& pair : pairs_of_sitting(trial, sitting)) entries.push_back({pair.name, text(pair.id.text())});
  fill(choice, entries);
}

std::optional<IdOf<Pair>> chosen_pair(const QComboBox* choice) {
  return IdOf<Pair>::parse(choice->currentData().toString().toStdString());
}

}  // namespace

ServePanel::ServePanel(Session& session, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), clock_(clock), style_(style) {
  const Tokens& t = tokens();
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(2);
  pair_ = choice(QStringLiteral("Pair to serve"), "serve_pair", this);
  now_ = button(QStringLiteral("Serve &now"), "serve_now", this);
  left_ = new BlankLine(QStringLiteral("Left cup at first sip"), {}, this);
  left_->line()->setObjectName(QStringLiteral("first_sip_left"));
  right_ = new BlankLine(QStringLiteral("Right cup at first sip"), {}, this);
  right_->line()->setObjectName(QStringLiteral("first_sip_right"));
  when_ = label({}, face(15), t.ink, this);
  when_->setObjectName(QStringLiteral("served_at"));
  caution_ = label({}, face(15), t.caution, this);
  refused_ = label({}, face(15), t.caution, this);
  refused_->setObjectName(QStringLiteral("serve_message"));
  refused_->hide();
  for (auto* blank : {left_, right_}) blank->say_in(refused_);
  const auto head = [&](int column, const QString& words) {
    grid->addWidget(label(words, face(15), t.soft_ink, this), 0, column);
  };
  head(0, QStringLiteral("serve"));
  head(2, QStringLiteral("left cup, first sip"));
  head(3, QStringLiteral("right cup, first sip"));
  int column = 0;
  for (QWidget* w : std::initializer_list<QWidget*>{pair_, now_, left_, right_, when_})
    grid->addWidget(w, 1, column++, Qt::AlignBottom);
  now_->setMinimumHeight(40);
  grid->addWidget(refused_, 2, 0, 1, 5);
  grid->addWidget(caution_, 3, 0, 1, 5);
  for (const int wide : {2, 3}) grid->setColumnStretch(wide, 2);
  grid->setColumnStretch(4, 3);
  connect(pair_, &QComboBox::currentIndexChanged, this, [this] {
    left_->set_message({});
    right_->set_message({});
    show_values();
  });
  connect(now_, &QPushButton::clicked, this, &ServePanel::serve_now);
  connect(left_, &BlankLine::typed, this, [this](const QString& typed) { put(true, typed); });
  connect(right_, &BlankLine::typed, this, [this](const QString& typed) { put(false, typed); });
}

std::optional<ServedPair> ServePanel::served() const {
  const auto trial = session_.trial();
  const auto pair = chosen_pair(pair_);
  if (!trial || !pair) return std::nullopt;
  const auto found = trial->served.find(*pair);
  if (found != trial->served.end()) return found->second;
  ServedPair fresh;
  fresh.pair = *pair;
  return fresh;
}

void ServePanel::refresh(int sitting, bool keyed) {
  keyed_ = keyed;
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  fill_pairs(pair_, *trial, sitting);
  const auto cautions =
      wording::cautions(wording::Step::serve, trial->sealed->plan, trial->sealed->registers.lots, style_);
  const auto hold = wording::cautions(wording::Step::hold, trial->sealed->plan, trial->sealed->registers.lots, style_);
  QStringList words;
  for (const auto* list : {&cautions, &hold})
    for (const auto& one : *list) words << text(one);
  caution_->setText(words.join(QLatin1Char(' ')));
  show_values();
}

void ServePanel::show_values() {
  const auto now = served();
  if (!now) return;
  left_->set_value(now->left ? text(temperature_text(*now->left, style_)) : QString());
  right_->set_value(now->right ? text(temperature_text(*now->right, style_)) : QString());
  // A slip of the hand is taken back where it was made.
  now_->setText(now->served ? QStringLiteral("Take it &back") : QStringLiteral("Serve &now"));
  const auto trial = session_.trial();
  now_->setEnabled(!trial->unmasked && !session_.read_only());
  const QString waiting = now->served ? QString() : not_ready(*trial, now->pair);
  when_->setText(now->served ? QStringLiteral("%1 served %2").arg(pair_->currentText(), text(clock_text(*now->served)))
                             : QStringLiteral("%1 not served yet%2").arg(pair_->currentText(), waiting));
}

/// ": brew 4 is not ready", or nothing when both cups are.
QString ServePanel::not_ready(const Trial& trial, IdOf<Pair> pair) const {
  const auto keyed = resolve_pair(trial, pair);
  if (!keyed) return {};
  QStringList numbers;
  for (const auto& id : std::set{keyed->cup_a.brew, keyed->cup_b.brew}) {
    const auto brew = trial.brews.find(id);
    const Stamp* last = brew == trial.brews.end() ? nullptr : last_stamp(*brew->second);
    if (brew != trial.brews.end() && (!last || last->kind != StampKind::ready))
      numbers << QString::number(brew->second->number);
  }
  if (numbers.isEmpty()) return {};
  // Without the key nobody may learn which brews meet at a table.
  if (!keyed_) return QStringLiteral(": a cup of it is not ready");
  numbers.sort();
  return QStringLiteral(": brew %1 not ready").arg(numbers.join(QStringLiteral(" and ")));
}

void ServePanel::serve_now() {
  auto next = served();
  if (!next) return;
  const bool taken_back = next->served.has_value();
  if (taken_back)
    next->served.reset();
  else
    next->served = clock_.now();
  const auto kept = session_.run(PutServed{*next});
  show_values();
  refused_->setText(kept ? QString() : said(kept.error()));
  refused_->setVisible(!kept);
  if (kept && !taken_back) left_->line()->setFocus();
}

void ServePanel::put(bool left, const QString& typed) {
  auto next = served();
  if (!next) return;
  auto& into = left ? next->left : next->right;
  BlankLine* blank = left ? left_ : right_;
  std::optional<Error> wrong;
  if (typed.trimmed().isEmpty()) {
    into.reset();
  } else if (const auto read =
                 parse_temperature(typed.trimmed().toStdString(), style_, left ? "left cup" : "right cup");
             read) {
    into = *read;
  } else {
    wrong = read.error();
  }
  if (!wrong)
    if (const auto kept = session_.run(PutServed{*next}); !kept) wrong = kept.error();
  const auto stands = served();
  const auto& value = left ? stands->left : stands->right;
  blank->set_value(value ? text(temperature_text(*value, style_)) : QString(), true);
  blank->set_message(wrong ? said(*wrong) : QString());
}

VoidPanel::VoidPanel(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  const Tokens& t = tokens();
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(2);
  pair_ = choice(QStringLiteral("Pair to take out"), "void_pair", this);
  who_ = choice(QStringLiteral("Who takes it out"), "void_who", this);
  why_ = new BlankLine(QStringLiteral("Why this pair is taken out"), QStringLiteral("spilt, tainted, wrong portion …"),
                       this);
  why_->line()->setObjectName(QStringLiteral("void_why"));
  take_ = button(QStringLiteral("Take it &out, brew again"), "void_now", this);
  list_ = label({}, face(15), t.ink, this);
  list_->setObjectName(QStringLiteral("voids"));
  const auto head = [&](int column, const QString& words) {
    grid->addWidget(label(words, face(15), t.soft_ink, this), 0, column);
  };
  head(0, QStringLiteral("take out"));
  head(1, QStringLiteral("who"));
  head(2, QStringLiteral("why"));
  auto* refused = label({}, face(15), t.caution, this);
  refused->setObjectName(QStringLiteral("void_message"));
  refused->hide();
  why_->say_in(refused);
  int column = 0;
  for (QWidget* w : std::initializer_list<QWidget*>{pair_, who_, why_, take_})
    grid->addWidget(w, 1, column++, Qt::AlignBottom);
  take_->setMinimumHeight(40);
  grid->addWidget(refused, 2, 0, 1, 4);
  grid->addWidget(list_, 3, 0, 1, 4);
  grid->setColumnStretch(2, 1);
  connect(take_, &QPushButton::clicked, this, &VoidPanel::take_out);
}

void VoidPanel::begin() {
  pair_->setFocus();
}

void VoidPanel::refresh(int sitting, IdOf<Assessor> who) {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  fill_pairs(pair_, *trial, sitting);
  std::vector<Entry> people;
  std::set<IdOf<Assessor>> seen;
  for (const auto& person : trial->sealed->plan.assessors) {
    const Assessor* one = find_record(trial->sealed->registers.assessors, person.id);
    if (!one || !seen.insert(person.id).second) continue;
    const Entry entry{text(one->alias), text(one->alias)};
    people.insert(person.id == who ? people.begin() : people.end(), entry);
  }
  fill(who_, people);
  QStringList lines;
  for (const auto& line : void_lines(*trial, sitting)) lines << line;
  list_->setText(lines.isEmpty() ? QStringLiteral("No pair of this sitting was taken out.")
                                 : lines.join(QLatin1Char('\n')));
}

void VoidPanel::take_out() {
  const auto pair = chosen_pair(pair_);
  if (!pair) return;
  const auto kept = session_.run(
      VoidPair{*pair, who_->currentData().toString().toStdString(), why_->value().trimmed().toStdString()});
  why_->set_message(kept ? QString() : said(kept.error()));
  if (kept) why_->set_value({}, true);
}

}  // namespace likeleaf::ui
