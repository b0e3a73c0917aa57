#include "ui/plan/plan_section.h"

#include <QApplication>
#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTextEdit>
#include <QVBoxLayout>

#include "core/wording/errors.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"
#include "ui/widgets/choice_line.h"

namespace likeleaf::ui {
namespace {

/// What is being written is taken before a button acts: a click must neither lose it nor be lost with it.
void take_what_is_written() {
  for (auto* at = QApplication::focusWidget(); at; at = at->parentWidget()) {
    if (auto* line = qobject_cast<BlankLine*>(at)) return line->finish();
    if (auto* page = qobject_cast<BlankText*>(at)) return page->finish();
  }
}

QString quiet_style() {
  const Tokens& t = tokens();
  return QStringLiteral(
             "QPushButton { color: %1; border: 1px solid transparent; padding: 2px 4px; text-align: left; }"
             "QPushButton:focus { border: 1px solid %1; border-radius: 4px; }"
             "QPushButton:hover { background: %2; border-radius: 4px; }")
      .arg(t.action.name(), t.band.name());
}

}  // namespace

QLabel* words(const QString& s, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new QLabel(s, parent);
  l->setFont(font);
  l->setWordWrap(true);
  l->setTextFormat(Qt::PlainText);
  QPalette p = l->palette();
  p.setColor(QPalette::WindowText, color);
  l->setPalette(p);
  return l;
}

QString thin_scroll_bar() {
  const Tokens& t = tokens();
  return QStringLiteral(
             "QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }"
             "QScrollBar::handle:vertical { background: %1; min-height: 40px; border-radius: 3px; margin: 0 2px; }"
             "QScrollBar::handle:vertical:hover { background: %2; }"
             "QScrollBar::add-line:vertical, QScrollBar::sub-line:vertical { height: 0; }"
             "QScrollBar::add-page:vertical, QScrollBar::sub-page:vertical { background: transparent; }")
      .arg(t.line.name(), t.soft_ink.name());
}

QHBoxLayout* row_in(QVBoxLayout* down) {
  auto* across = new QHBoxLayout;
  across->setSpacing(6);
  down->addLayout(across);
  return across;
}

const Registers& PlanEditor::registers() const {
  const auto trial = session_.trial();
  // The session keeps the trial on the bench alive, and with it what was sealed.
  return trial && trial->sealed ? trial->sealed->registers : session_.registers();
}

const std::vector<Attribute>& PlanEditor::attributes() const {
  const auto trial = session_.trial();
  return trial && trial->sealed ? trial->sealed->attributes : session_.attributes();
}

bool PlanEditor::locked() const {
  const auto trial = session_.trial();
  return !trial || trial->sealed || session_.read_only();
}

QString PlanEditor::refusal(const Result<Ticket>& done) {
  return done ? QString() : qt(wording::sentence(done.error()));
}

QString PlanEditor::edit(const std::function<Result<void>(Plan&)>& change) const {
  const auto trial = session_.trial();
  if (!trial) return QStringLiteral("There is no trial to change.");
  Plan plan = trial->draft;
  if (const auto changed = change(plan); !changed) return qt(wording::sentence(changed.error()));
  return refusal(session_.run(SetPlan{std::move(plan)}));
}

QString PlanEditor::set(const std::function<void(Plan&)>& change) const {
  return edit([&](Plan& plan) -> Result<void> {
    change(plan);
    return {};
  });
}

PlanSection::PlanSection(PlanEditor& editor, QWidget* parent)
    : QWidget(parent), editor_(editor), down_(new QVBoxLayout(this)) {
  down_->setContentsMargins(0, 0, 0, 0);
  down_->setSpacing(4);
  refusal_ = words({}, face(15), tokens().caution, this);
  refusal_->hide();
  down_->addWidget(refusal_);
}

bool PlanSection::refresh(const Plan& plan, const NotesByPlace& notes) {
  QString now = signature(plan) + (editor_.locked() ? QStringLiteral("|locked") : QStringLiteral("|open"));
  for (const auto& one : open_) now += QLatin1Char('|') + one;
  const bool again = !body_ || now != shown_;
  if (again) {
    shown_ = now;
    rebuild(plan);
  }
  // A value's own edit may make this section's rows again while the list is walked.
  const auto shows = shows_;
  for (const auto& show : shows) show(plan);
  const auto places = places_;
  for (const auto& [object, tell] : places) {
    const auto found = notes.find(object);
    tell(found == notes.end() ? PlaceNotes{} : found->second);
  }
  return again;
}

void PlanSection::rebuild(const Plan& plan) {
  QString focus;
  if (body_) {
    if (auto* at = body_->window()->focusWidget(); at && body_->isAncestorOf(at)) focus = at->objectName();
    for (auto* child : body_->findChildren<QWidget*>()) child->setObjectName({});
  }
  shows_.clear();
  places_.clear();
  auto* old = body_;
  body_ = new QWidget(this);
  auto* into = new QVBoxLayout(body_);
  into->setContentsMargins(0, 0, 0, 0);
  into->setSpacing(4);
  build(plan, into);
  down_->insertWidget(0, body_);
  body_->show();
  if (!focus.isEmpty()) go_to(focus);
  if (old) {
    down_->removeWidget(old);
    old->hide();
    // Out of the tree at once; its signal may still be running, so it goes later.
    old->setParent(nullptr);
    old->deleteLater();
  }
}

bool PlanSection::go_to(const QString& object) {
  auto* there = object.isEmpty() ? nullptr : findChild<QWidget*>(object);
  if (!there) return false;
  there->setFocus(Qt::OtherFocusReason);
  if (auto* line = qobject_cast<QLineEdit*>(there)) line->selectAll();
  if (auto* page = qobject_cast<QTextEdit*>(there)) page->selectAll();
  return true;
}

QLabel* PlanSection::heading(const QString& text, QVBoxLayout* down, double pixels) {
  if (pixels < 20) down->addSpacing(16);
  auto* l = words(text, face(pixels, Weight::semi_bold), tokens().ink, this);
  down->addWidget(l);
  return l;
}

QLabel* PlanSection::soft(const QString& text, QBoxLayout* into) {
  auto* l = words(text, face(15), tokens().soft_ink, this);
  l->setWordWrap(dynamic_cast<QVBoxLayout*>(into) != nullptr);
  into->addWidget(l);
  return l;
}

QLabel* PlanSection::soft_bound(QBoxLayout* into, const Read& read) {
  auto* l = soft({}, into);
  bind([l, read](const Plan& plan) {
    const QString said = read(plan);
    l->setText(said);
    l->setVisible(!said.isEmpty());
  });
  return l;
}

template <class Blank>
void PlanSection::wire(Blank* out, const QString& object, const Read& read, const OwnWrite& write) {
  out->set_read_only(editor_.locked());
  bind([out, read](const Plan& plan) { out->set_value(read(plan)); });
  places_.emplace_back(object, [out](const PlaceNotes& notes) {
    out->set_note(notes.sentences.join(QLatin1Char(' ')));
    out->set_wanted(notes.wanted);
  });
  connect(out, &Blank::typed, this, [this, out, read, write](const QString& text) {
    const QString refused = write(text);
    out->set_message(refused);
    // What stands is what the book has, in the words of the house.
    if (const auto trial = editor_.session().trial()) out->set_value(read(trial->draft), true);
  });
}

BlankLine* PlanSection::own_blank(const QString& name, const QString& object, const Read& read, const OwnWrite& write,
                                  const QString& placeholder) {
  auto* out = new BlankLine(name, editor_.locked() ? QString() : placeholder, body_);
  out->line()->setObjectName(object);
  out->set_quiet(true);
  wire(out, object, read, write);
  if (editor_.locked()) out->line()->setFocusPolicy(Qt::ClickFocus);
  return out;
}

BlankText* PlanSection::own_text(const QString& name, const QString& object, const Read& read, const OwnWrite& write,
                                 const QString& placeholder) {
  auto* out = new BlankText(name, placeholder, body_);
  if (editor_.locked()) out->page()->setPlaceholderText({});
  out->page()->setObjectName(object);
  wire(out, object, read, write);
  return out;
}

BlankLine* PlanSection::blank(const QString& name, const QString& object, const Read& read, const Write& write,
                              const QString& placeholder) {
  return own_blank(
      name, object, read,
      [this, write](const QString& text) { return editor_.edit([&](Plan& plan) { return write(plan, text); }); },
      placeholder);
}

BlankText* PlanSection::text_blank(const QString& name, const QString& object, const Read& read, const Write& write,
                                   const QString& placeholder) {
  return own_text(
      name, object, read,
      [this, write](const QString& text) { return editor_.edit([&](Plan& plan) { return write(plan, text); }); },
      placeholder);
}

void PlanSection::steppers(const QString& name, const QString& object, QBoxLayout* into,
                           const std::function<void(Plan&, int)>& step) {
  if (editor_.locked()) return;
  for (const int way : {-1, 1}) {
    auto* b = act(way < 0 ? QStringLiteral("−") : QStringLiteral("+"),
                  way < 0 ? name + QStringLiteral(", less") : name + QStringLiteral(", more"),
                  object + (way < 0 ? QStringLiteral(".less") : QStringLiteral(".more")),
                  [this, step, way] { say(editor_.set([&](Plan& plan) { step(plan, way); })); });
    // Keys type the number; only the mouse needs these.
    b->setFocusPolicy(Qt::NoFocus);
    b->setAutoRepeat(true);
    b->setFixedSize(22, 30);
    into->addWidget(b, 0, Qt::AlignTop);
  }
}

QWidget* PlanSection::choice(const QString& name, const QString& object,
                             const std::function<QStringList(const Plan&)>& items,
                             const std::function<int(const Plan&)>& read,
                             const std::function<void(Plan&, int)>& write) {
  return own_choice(name, object, items, read,
                    [this, write](int at) { return editor_.set([&](Plan& plan) { write(plan, at); }); });
}

QWidget* PlanSection::own_choice(const QString& name, const QString& object,
                                 const std::function<QStringList(const Plan&)>& items,
                                 const std::function<int(const Plan&)>& read,
                                 const std::function<QString(int)>& write) {
  if (editor_.locked()) {
    auto* l = words({}, face(15, Weight::medium), tokens().ink, body_);
    l->setObjectName(object);
    l->setMinimumHeight(30);
    bind([l, name, items, read](const Plan& plan) {
      l->setText(items(plan).value(read(plan)));
      l->setAccessibleName(name + QStringLiteral(": ") + l->text());
    });
    return l;
  }
  auto* c = new ChoiceLine(name, body_);
  c->setObjectName(object);
  bind([c, items, read](const Plan& plan) {
    const QStringList wanted = items(plan);
    QStringList there;
    for (int i = 0; i < c->count(); ++i) there << c->itemText(i);
    if (there != wanted) {
      c->clear();
      c->addItems(wanted);
      c->updateGeometry();
    }
    c->setCurrentIndex(read(plan));
  });
  places_.emplace_back(
      object, [c](const PlaceNotes& notes) { c->setAccessibleDescription(notes.sentences.join(QLatin1Char(' '))); });
  connect(c, &QComboBox::activated, this, [this, c, read, write](int at) {
    say(write(at));
    // A refused choice goes back to what stands.
    if (const auto trial = editor_.session().trial()) c->setCurrentIndex(read(trial->draft));
  });
  return c;
}

QWidget* PlanSection::tick(const QString& name, const QString& object, const std::function<bool(const Plan&)>& read,
                           const std::function<void(Plan&, bool)>& write, bool dot) {
  return tick([name](const Plan&) { return name; }, object, read, write, dot);
}

QWidget* PlanSection::tick(const Read& name, const QString& object, const std::function<bool(const Plan&)>& read,
                           const std::function<void(Plan&, bool)>& write, bool dot) {
  if (editor_.locked()) {
    auto* l = words({}, face(15), tokens().ink, body_);
    l->setObjectName(object);
    l->setMinimumHeight(30);
    l->setWordWrap(!dot);
    bind([l, name, read, dot](const Plan& plan) {
      const bool on = read(plan);
      l->setText((dot ? (on ? QStringLiteral("● ") : QStringLiteral("○ "))
                      : (on ? QStringLiteral("✓ ") : QStringLiteral("– "))) +
                 name(plan));
      l->setAccessibleName(name(plan) + (on ? QStringLiteral(": yes") : QStringLiteral(": no")));
    });
    return l;
  }
  QCheckBox* box = dot ? new DotTick({}, body_) : new QCheckBox(body_);
  box->setObjectName(object);
  box->setFont(face(15));
  box->setMinimumHeight(30);
  bind([box, name, read](const Plan& plan) {
    box->setText(name(plan));
    box->setChecked(read(plan));
  });
  places_.emplace_back(object, [box](const PlaceNotes& notes) {
    box->setAccessibleDescription(notes.sentences.join(QLatin1Char(' ')));
  });
  connect(box, &QCheckBox::clicked, this,
          [this, write](bool on) { say(editor_.set([&](Plan& plan) { write(plan, on); })); });
  return box;
}

QPushButton* PlanSection::act(const QString& text, const QString& name, const QString& object,
                              const std::function<void()>& run) {
  if (editor_.locked()) return nullptr;
  auto* b = new QPushButton(text, body_);
  b->setObjectName(object);
  b->setAccessibleName(name);
  b->setFlat(true);
  b->setFont(face(15));
  b->setMinimumHeight(30);
  b->setCursor(Qt::PointingHandCursor);
  b->setAutoDefault(true);  // Enter presses it, as Space does
  b->setStyleSheet(quiet_style());
  // A click leaves the focus, and what is being written, where it is until the button acts.
  b->setFocusPolicy(Qt::TabFocus);
  connect(b, &QPushButton::clicked, this, [run] {
    take_what_is_written();
    run();
  });
  return b;
}

QPushButton* PlanSection::fold(const QString& text, const QString& name, const QString& object) {
  auto* b = new QPushButton(text, body_);
  b->setObjectName(object);
  b->setAccessibleName(name);
  b->setFlat(true);
  b->setCheckable(true);
  b->setChecked(is_open(object));
  b->setFont(face(15));
  b->setMinimumHeight(30);
  b->setCursor(Qt::PointingHandCursor);
  b->setAutoDefault(true);  // Enter presses it, as Space does
  b->setStyleSheet(
      quiet_style() +
      QStringLiteral("QPushButton:checked { background: %1; border-radius: 4px; }").arg(tokens().band.name()));
  b->setFocusPolicy(Qt::TabFocus);
  connect(b, &QPushButton::clicked, this, [this, object] {
    take_what_is_written();
    if (!open_.erase(object)) open_.insert(object);
    editor_.look_again();
  });
  return b;
}

QLabel* PlanSection::room(QVBoxLayout* down) {
  auto* l = words({}, face(15), tokens().caution, body_);
  l->hide();
  down->addWidget(l);
  return l;
}

void PlanSection::notes_under(const QString& object, QVBoxLayout* down) {
  auto* l = room(down);
  places_.emplace_back(object, [l](const PlaceNotes& notes) {
    l->setText(notes.wanted ? QString() : notes.sentences.join(QLatin1Char('\n')));
    l->setVisible(!l->text().isEmpty());
  });
}

void PlanSection::form_row(const QString& name, QWidget* field, QVBoxLayout* down, int indent) {
  auto* across = row_in(down);
  across->setContentsMargins(indent, 0, 0, 0);
  auto* l = words(name, face(15), tokens().soft_ink, body_);
  l->setFixedWidth(112);
  l->setMinimumHeight(30);
  l->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  across->addWidget(l, 0, Qt::AlignTop);
  across->addWidget(field, 1, Qt::AlignTop);
}

void PlanSection::say(const QString& sentence) {
  refusal_->setText(sentence);
  refusal_->setVisible(!sentence.isEmpty());
}

}  // namespace likeleaf::ui
