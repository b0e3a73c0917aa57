#include "ui/prints/prints_screen.h"

#include <QButtonGroup>
#include <QComboBox>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <algorithm>
#include <set>

#include "core/session/taster_port.h"
#include "core/wording/errors.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

constexpr double preview_scale = 0.9;
constexpr int pages_shown = 12;  ///< more are printed, not previewed: a panel's sheets can be a hundred pages

QComboBox* choice(const QString& name, const char* object, QWidget* parent) {
  auto* c = new QComboBox(parent);
  c->setObjectName(QString::fromLatin1(object));
  c->setAccessibleName(name);
  c->setMinimumHeight(36);
  return c;
}

struct KindText {
  const char *name, *object, *about;
};

constexpr KindText kind_texts[] = {
    {"Cup labels", "print_labels", "One big code for each cup, to cut out. Codes alone: no key."},
    {"Tray map", "print_trays", "For whoever serves: which code stands where, and which is sipped first. No key."},
    {"Preparer’s sheet", "print_preparer", "Holds the key: what to weigh, brew, pour and serve. Keep it from tasters."},
    {"Portion slips", "print_slips",
     "Hold the key, so they are not shown here. Print them, fold each over its recipe unread, open one when its brew "
     "is "
     "next."},
    {"Score sheets", "print_sheets", "In serving order, by code: a cover, a sheet a pair, the last questions. No key."},
};

}  // namespace

PrintsScreen::PrintsScreen(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  const Tokens& t = tokens();
  setObjectName(QStringLiteral("prints_screen"));
  setAccessibleName(QStringLiteral("Prints"));
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 18, 28, 0);
  across->setSpacing(28);
  auto* left = new QVBoxLayout;
  left->setSpacing(10);
  title_ = label(QStringLiteral("Prints"), face(22, Weight::semi_bold), t.ink, this);
  left->addWidget(title_);
  build_choices(left);
  build_reveal(left);
  said_ = label({}, face(15), t.soft_ink, this);
  said_->setObjectName(QStringLiteral("prints_said"));
  left->addWidget(said_);
  left->addStretch(1);
  auto* back = outlined_button(QStringLiteral("&Back"), QStringLiteral("prints_back"), this);
  connect(back, &QPushButton::clicked, this, &PrintsScreen::leave_wanted);
  left->addWidget(back, 0, Qt::AlignLeft);
  left->addSpacing(18);
  across->addLayout(left, 3);
  scroll_ = new QScrollArea(this);
  scroll_->setObjectName(QStringLiteral("prints_preview"));
  scroll_->setAccessibleName(QStringLiteral("Preview of the print"));
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  across->addWidget(scroll_, 8);
  changes_ = session_.on_change([this](const Notice& notice) {
    if (notice.part != Part::voids && notice.part != Part::seal && notice.part != Part::unmask) return;
    stale_ = true;
    if (isVisible()) show_side(side_, scope().sitting.value_or(0));
  });
  // What is not offered is hidden from the start, or it would ask the window for room.
  show_side(Side::bench, 1);
}

PrintsScreen::~PrintsScreen() {
  changes_ = Subscription();
  close_key();
}

void PrintsScreen::build_choices(QVBoxLayout* down) {
  const Tokens& t = tokens();
  kinds_ = new QButtonGroup(this);
  for (int kind = labels; kind <= sheets; ++kind) {
    auto* b =
        outlined_button(QString::fromUtf8(kind_texts[kind].name), QString::fromLatin1(kind_texts[kind].object), this);
    b->setCheckable(true);
    b->setAccessibleDescription(QString::fromUtf8(kind_texts[kind].about));
    kinds_->addButton(b, kind);
    kind_buttons_.push_back(b);
    down->addWidget(b);
  }
  connect(kinds_, &QButtonGroup::idClicked, this, [this](int kind) { choose(static_cast<Kind>(kind)); });
  about_ = label({}, face(15), t.soft_ink, this);
  about_->setObjectName(QStringLiteral("prints_about"));
  down->addWidget(about_);
  who_label_ = label(QStringLiteral("For whom"), face(15), t.soft_ink, this);
  who_ = choice(QStringLiteral("For whom"), "prints_taster", this);
  scope_ = choice(QStringLiteral("Which sitting"), "prints_sitting", this);
  down->addWidget(who_label_);
  down->addWidget(who_);
  down->addWidget(scope_);
  acts_ = new QWidget(this);
  auto* acts = new QVBoxLayout(acts_);
  acts->setContentsMargins(0, 4, 0, 0);
  acts->setSpacing(10);
  auto* row = new QHBoxLayout;
  papers_ = new QButtonGroup(this);
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    auto* b = outlined_button(
        paper_name(paper), paper == Paper::a4 ? QStringLiteral("prints_a4") : QStringLiteral("prints_letter"), acts_);
    b->setAccessibleName(QStringLiteral("Paper: ") + paper_name(paper));
    b->setCheckable(true);
    b->setChecked(paper == paper_);
    papers_->addButton(b, static_cast<int>(paper));
    row->addWidget(b);
  }
  row->addStretch(1);
  acts->addLayout(row);
  auto* press = new QHBoxLayout;
  save_ = filled_button(QStringLiteral("&Save PDF…"), QStringLiteral("prints_save"), acts_);
  auto* send = outlined_button(QStringLiteral("&Print…"), QStringLiteral("prints_print"), acts_);
  press->addWidget(save_);
  press->addWidget(send);
  press->addStretch(1);
  acts->addLayout(press);
  down->addWidget(acts_);
  connect(papers_, &QButtonGroup::idClicked, this, [this](int paper) {
    paper_ = static_cast<Paper>(paper);
    choose_paper(paper_);
    show_print();
  });
  connect(who_, &QComboBox::currentIndexChanged, this, &PrintsScreen::show_print);
  connect(scope_, &QComboBox::currentIndexChanged, this, &PrintsScreen::show_print);
  connect(save_, &QPushButton::clicked, this, &PrintsScreen::save);
  connect(send, &QPushButton::clicked, this, &PrintsScreen::send);
}

void PrintsScreen::build_reveal(QVBoxLayout* down) {
  const Tokens& t = tokens();
  reveal_ = new QWidget(this);
  auto* inside = new QVBoxLayout(reveal_);
  inside->setContentsMargins(0, 6, 0, 0);
  inside->setSpacing(10);
  inside->addWidget(label(QStringLiteral("This sheet opens the key. Tasters look away."), face(18, Weight::semi_bold),
                          t.caution, reveal_));
  inside->addWidget(
      label(QStringLiteral("It is noted who opened it and when, and it closes with this view. Who prepares?"), face(15),
            t.soft_ink, reveal_));
  preparer_ = choice(QStringLiteral("Preparer"), "prints_who_prepares", reveal_);
  auto* open = filled_button(QStringLiteral("&Open the key"), QStringLiteral("prints_open_key"), reveal_);
  inside->addWidget(preparer_, 0, Qt::AlignLeft);
  inside->addWidget(open, 0, Qt::AlignLeft);
  connect(open, &QPushButton::clicked, this, &PrintsScreen::open_key);
  down->addWidget(reveal_);
}

void PrintsScreen::show_side(Side side, int sitting) {
  const bool turned = side != side_;
  side_ = side;
  stale_ = true;
  const auto trial = session_.trial();
  const bool sealed = trial && trial->sealed;
  const bool self = sealed && trial->sealed->plan.blinding == Blinding::self;
  const bool bench = side == Side::bench;
  title_->setText(bench ? QStringLiteral("Prints for the bench") : QStringLiteral("Score sheets to print"));
  kind_buttons_[labels]->setText(self ? QStringLiteral("Stickers under the cups") : QStringLiteral("Cup labels"));
  kind_buttons_[labels]->setVisible(bench);
  kind_buttons_[trays]->setVisible(bench);
  kind_buttons_[preparer]->setVisible(bench && !self);
  kind_buttons_[slips]->setVisible(bench && self);
  kind_buttons_[sheets]->setVisible(false);  // alone on its side: nothing to choose
  who_->setVisible(!bench);
  who_label_->setVisible(!bench);
  if (sealed) {
    fill_scopes(*trial, sitting);
    fill_people(*trial);
  }
  const bool shown = bench ? kind_ != sheets && !kind_buttons_[kind_]->isHidden() : kind_ == sheets;
  choose(shown && !turned ? kind_ : bench ? labels : sheets);
}

void PrintsScreen::fill_scopes(const Trial& trial, int sitting) {
  const QSignalBlocker quiet(scope_);
  scope_->clear();
  std::set<int> sittings;
  bool again = false;
  for (const auto* s : live_servings(trial)) {
    sittings.insert(s->sitting);
    again = again || s->instead_of.has_value();
  }
  for (const int s : sittings) scope_->addItem(QStringLiteral("sitting %1").arg(s), s);
  if (sittings.size() > 1) scope_->addItem(QStringLiteral("all sittings"), 0);
  if (again) scope_->addItem(QStringLiteral("pairs brewed again"), -1);
  scope_->setCurrentIndex(std::max(0, scope_->findData(sitting)));
}

void PrintsScreen::fill_people(const Trial& trial) {
  const QSignalBlocker quiet_who(who_), quiet_preparer(preparer_);
  const QString before = who_->currentData().toString();
  who_->clear();
  preparer_->clear();
  const auto name = [&](IdOf<Assessor> id) {
    const Assessor* one = find_record(trial.sealed->registers.assessors, id);
    return one ? text(one->alias) : QStringLiteral("?");
  };
  const auto people = tasters(trial.sealed->plan);
  for (const auto& id : people) who_->addItem(name(id), text(id.text()));
  if (people.size() > 1) who_->addItem(QStringLiteral("all tasters"), QString());
  if (const int at = who_->findData(before); at >= 0 && !before.isEmpty()) who_->setCurrentIndex(at);
  for (const auto& person : trial.sealed->plan.assessors)
    if (person.role == Role::preparer) preparer_->addItem(name(person.id), text(person.id.text()));
}

void PrintsScreen::choose(Kind kind) {
  if (kind != preparer) close_key();
  kind_ = kind;
  kind_buttons_[kind]->setChecked(true);
  about_->setText(QString::fromUtf8(kind_texts[kind].about));
  say({});
  show_print();
}

report::PrintScope PrintsScreen::scope() const {
  const int chosen = scope_->currentData().toInt();
  if (chosen > 0) return {chosen, false};
  return {std::nullopt, chosen < 0};
}

Result<report::SheetPlan> PrintsScreen::sheet_plan(const Trial& trial, IdOf<Assessor> taster) const {
  // Through the blind port: what a taster may not see cannot come onto the sheet.
  auto port = session_.taster(taster);
  if (!port) return tl::unexpected<Error>(port.error());
  const TasterSetup& setup = (*port)->setup();
  report::SheetPlan plan;
  plan.alias = setup.alias;
  plan.attributes = setup.attributes;
  plan.attribute_by_attribute = setup.attribute_by_attribute;
  plan.hide_first_cup = setup.hide_first_cup;
  plan.self_blinded = trial.sealed->plan.blinding == Blinding::self;
  plan.allergens = setup.allergens;
  plan.flight = (*port)->flight();
  return plan;
}

Result<PrintsScreen::Ready> PrintsScreen::make() const {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed)
    return fail(ErrorKind::not_allowed, "prints", "not sealed", "a sealed trial: codes are drawn at the seal");
  switch (kind_) {
    case labels: {
      const auto table = report::table_plan(*trial);
      return Ready{report::cup_labels(table, scope()), text(report::labels_file(table, scope()))};
    }
    case trays:
      return Ready{report::tray_map(report::table_plan(*trial), scope()), text(report::tray_map_file(scope()))};
    case preparer:
      if (!pass_) return fail(ErrorKind::not_allowed, "key", "closed", "the preparer’s sheet once the key is open");
      return Ready{report::preparer_sheet(*trial, *pass_, scope(), style_),
                   text(report::preparer_sheet_file(*trial, scope()))};
    case slips: {
      auto made = report::portion_slips(*trial, scope(), style_);
      if (!made) return tl::unexpected<Error>(made.error());
      return Ready{std::move(*made), text(report::portion_slips_file(scope()))};
    }
    case sheets:
      break;
  }
  const auto one = IdOf<Assessor>::parse(who_->currentData().toString().toStdString());
  std::vector<report::SheetPlan> plans;
  for (const auto& id : tasters(trial->sealed->plan)) {
    if (one && *one != id) continue;
    auto plan = sheet_plan(*trial, id);
    if (!plan) return tl::unexpected<Error>(plan.error());
    plans.push_back(std::move(*plan));
  }
  const std::string alias = one && !plans.empty() ? plans.front().alias : std::string();
  return Ready{report::score_sheets(plans, scope()), text(report::score_sheets_file(alias, scope()))};
}

void PrintsScreen::show_print() {
  const bool closed = kind_ == preparer && !pass_;
  reveal_->setVisible(closed);
  acts_->setVisible(!closed);
  if (!isVisible()) {
    stale_ = true;
    return;
  }
  stale_ = false;
  if (closed) return show_words(QStringLiteral("The key is closed."));
  if (kind_ == slips) return show_words(QStringLiteral("Not shown here, so that you do not read what you will taste."));
  const auto ready = make();
  if (!ready) {
    acts_->hide();
    return show_words(text(wording::sentence(ready.error())));
  }
  show_pages(ready->print);
}

void PrintsScreen::show_words(const QString& words) {
  auto* l = label(words, face(18), tokens().soft_ink, nullptr);
  l->setAlignment(Qt::AlignCenter);
  l->setObjectName(QStringLiteral("prints_words"));
  scroll_->setWidget(l);
}

void PrintsScreen::show_pages(const Print& print) {
  const double ratio = devicePixelRatioF();
  QGuiApplication::setOverrideCursor(Qt::WaitCursor);
  const auto pages = print_images(print, paper_, preview_scale * ratio, pages_shown);
  QGuiApplication::restoreOverrideCursor();
  auto* holder = new QWidget;
  auto* down = new QVBoxLayout(holder);
  down->setContentsMargins(0, 0, 12, 20);
  down->setSpacing(16);
  for (std::size_t i = 0; i < pages.images.size(); ++i) {
    auto* page = new QLabel(holder);
    QPixmap picture = QPixmap::fromImage(pages.images[i]);
    picture.setDevicePixelRatio(ratio);
    page->setPixmap(picture);
    page->setObjectName(QStringLiteral("page"));
    page->setAccessibleName(QStringLiteral("Page %1 of %2").arg(i + 1).arg(pages.count));
    down->addWidget(page, 0, Qt::AlignHCenter);
  }
  const int more = pages.count - static_cast<int>(pages.images.size());
  if (more > 0)
    down->addWidget(label(QStringLiteral("and %1 more like these").arg(more), face(15), tokens().soft_ink, holder), 0,
                    Qt::AlignHCenter);
  down->addStretch(1);
  scroll_->setWidget(holder);
  scroll_->verticalScrollBar()->setValue(0);
}

void PrintsScreen::open_key() {
  const auto trial = session_.trial();
  const auto id = IdOf<Assessor>::parse(preparer_->currentData().toString().toStdString());
  if (!trial || !id) return say(QStringLiteral("The plan names nobody who prepares."), true);
  auto pass = KeyVault::reveal(*trial, *id);
  if (!pass) return say(text(wording::sentence(pass.error())), true);
  if (!trial->unmasked) {
    // An opening that a power cut left without its end is ended first, so that this one is logged for itself.
    if (const auto ended = session_.run(CloseKey{*id}); !ended)
      return say(text(wording::sentence(ended.error())), true);
    if (const auto logged = session_.run(OpenKey{*id}); !logged)
      return say(text(wording::sentence(logged.error())), true);
  }
  pass_.emplace(std::move(*pass));
  say({});
  show_print();
  save_->setFocus();
}

void PrintsScreen::close_key() {
  if (!pass_) return;
  const auto who = pass_->preparer();
  pass_.reset();
  show_words(QStringLiteral("The key is closed."));
  const auto trial = session_.trial();
  if (!trial || trial->unmasked) return;
  if (const auto logged = session_.run(CloseKey{who}); !logged) say(text(wording::sentence(logged.error())), true);
}

void PrintsScreen::save() {
  const auto ready = make();
  if (!ready) return say(text(wording::sentence(ready.error())), true);
  const QString path = path_prompt_(ready->file + QStringLiteral(".pdf"), QStringLiteral("PDF (*.pdf)"));
  if (path.isEmpty()) return;
  bool done = false;
  const QString words = save_said(path, print_pdf(ready->print, paper_), &done);
  say(words, !done);
  if (done) emit saved(path);
}

void PrintsScreen::send() {
  const auto ready = make();
  if (!ready) return say(text(wording::sentence(ready.error())), true);
  const auto printer = printer_prompt_(paper_);
  if (!printer) return;
  const bool done = print_to(*printer, ready->print, paper_);
  say(done ? QStringLiteral("Sent to the printer.") : QStringLiteral("The printer did not take it."), !done);
}

void PrintsScreen::say(const QString& sentence, bool caution) {
  QPalette p = said_->palette();
  p.setColor(QPalette::WindowText, caution ? tokens().caution : tokens().soft_ink);
  said_->setPalette(p);
  said_->setText(sentence);
}

void PrintsScreen::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (stale_) show_print();
  (side_ == Side::bench ? static_cast<QWidget*>(kinds_->checkedButton()) : who_)->setFocus();
}

void PrintsScreen::hideEvent(QHideEvent* event) {
  // Spontaneous: the window was only minimised by the system, which hides the key no less.
  close_key();
  stale_ = true;
  QWidget::hideEvent(event);
}

void PrintsScreen::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    emit leave_wanted();
    return;
  }
  QWidget::keyPressEvent(event);
}

}  // namespace likeleaf::ui
