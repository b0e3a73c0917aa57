#include "ui/taste/taste_head.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "core/wording/errors.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

/// One short bar a pair: filled when locked, in the accent and longer when it is the one of now.
class Dashes final : public QWidget {
 public:
  explicit Dashes(QWidget* parent) : QWidget(parent) { setFixedHeight(12); }
  void set(const std::vector<TasteHead::Pair>& pairs) {
    pairs_ = pairs;
    double wide = 0;
    for (const auto pair : pairs_) wide += width_of(pair) + gap;
    setFixedWidth(static_cast<int>(wide));
    update();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const Tokens& t = tokens();
    QPainter p(this);
    p.setRenderHint(QPainter::Antialiasing);
    p.setPen(Qt::NoPen);
    double x = 0;
    for (const auto pair : pairs_) {
      p.setBrush(pair == TasteHead::Pair::done ? t.ink : pair == TasteHead::Pair::now ? t.action : t.line);
      p.drawRoundedRect(QRectF(x, 2, width_of(pair), 8), 4, 4);
      x += width_of(pair) + gap;
    }
  }

 private:
  static constexpr double gap = 10;
  [[nodiscard]] double width_of(TasteHead::Pair pair) const {
    const double plain = pairs_.size() > 8 ? 14 : 30;
    return pair == TasteHead::Pair::now ? plain * 1.5 : plain;
  }
  std::vector<TasteHead::Pair> pairs_;
};

TasteHead::TasteHead(QWidget* parent) : QWidget(parent) {
  const Tokens& t = tokens();
  setFixedHeight(64);
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(28, 0, 28, 0);
  grid->setHorizontalSpacing(16);
  auto* names = new QVBoxLayout;
  names->setSpacing(1);
  who_ = plain_label({}, face(16, Weight::semi_bold), t.ink, this);
  who_->setObjectName(QStringLiteral("who"));
  sitting_ = plain_label({}, face(15), t.soft_ink, this);
  sitting_->setObjectName(QStringLiteral("sitting"));
  names->addStretch(1);
  names->addWidget(who_);
  names->addWidget(sitting_);
  names->addStretch(1);
  auto* middle = new QHBoxLayout;
  middle->setSpacing(8);
  dashes_ = new Dashes(this);
  place_ = plain_label({}, face(15), t.soft_ink, this);
  place_->setObjectName(QStringLiteral("place"));
  place_->setWordWrap(false);
  middle->addWidget(dashes_);
  middle->addWidget(place_);
  auto* right = new QHBoxLayout;
  right->setSpacing(12);
  kept_ = plain_label({}, face(15), t.soft_ink, this);
  kept_->setObjectName(QStringLiteral("taste_kept"));
  kept_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  retry_ = new QuietButton(QStringLiteral("Try again"), QuietButton::Look::outlined, this);
  retry_->setObjectName(QStringLiteral("retry"));
  retry_->hide();
  leave_ = new QuietButton(QStringLiteral("leave the table"), QuietButton::Look::bare, this);
  leave_->setObjectName(QStringLiteral("leave_table"));
  leave_->setMinimumHeight(44);
  right->addWidget(kept_, 1);
  right->addWidget(retry_);
  right->addWidget(leave_);
  grid->addLayout(names, 0, 0);
  grid->addLayout(middle, 0, 1, Qt::AlignCenter);
  grid->addLayout(right, 0, 2);
  // The middle stays in the middle of the window whatever stands at its sides.
  for (const int side : {0, 2}) {
    grid->setColumnStretch(side, 1);
    grid->setColumnMinimumWidth(side, 380);
  }
  connect(retry_, &QPushButton::clicked, this, &TasteHead::retry_wanted);
  connect(leave_, &QPushButton::clicked, this, &TasteHead::leave_wanted);
}

void TasteHead::set_who(const QString& alias, const QString& sitting) {
  who_->setText(alias);
  sitting_->setText(sitting);
}

void TasteHead::set_pairs(const std::vector<Pair>& pairs, const QString& words) {
  dashes_->set(pairs);
  dashes_->setVisible(!pairs.empty());
  dashes_->setAccessibleName(words);
  place_->setText(words);
}

void TasteHead::hear(const Kept& news) {
  if (news.not_kept) {
    Error error = *news.not_kept;
    error.where.clear();  // the name of the book is not for the table
    kept_->setText(QStringLiteral("not kept: ") + QString::fromStdString(wording::sentence(error)));
  } else {
    kept_->setText(QStringLiteral("kept ") + QString::fromStdString(clock_text(news.at)));
  }
  QPalette palette = kept_->palette();
  palette.setColor(QPalette::WindowText, news.not_kept ? tokens().caution : tokens().soft_ink);
  kept_->setPalette(palette);
  retry_->setVisible(news.not_kept.has_value());
}

}  // namespace likeleaf::ui
