// How it is served, and the controls.
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "core/base/number_text.h"
#include "core/planning/needs.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {
namespace {

constexpr int most_sittings = 40;
constexpr std::int64_t least_cup = 1'000, most_cup = 500'000;

QString counted(int n, const QString& one, const QString& many) {
  return QStringLiteral("%1 %2").arg(n).arg(n == 1 ? one : many);
}

/// "3 sittings; the fullest: a warm-up, 3 pairs and 1 control."
QString sittings_text(const Plan& plan) {
  const auto shapes = sitting_shapes(plan);
  if (shapes.empty() || plan.lots.empty()) return {};
  const auto fullest =
      std::ranges::max_element(shapes, {}, [](const SittingShape& s) { return s.contrast_pairs + s.controls; });
  QString each = fullest->warm_up ? QStringLiteral("a warm-up, ") : QString();
  each += counted(fullest->contrast_pairs, QStringLiteral("pair"), QStringLiteral("pairs"));
  if (fullest->controls > 0)
    each += QStringLiteral(" and ") + counted(fullest->controls, QStringLiteral("control"), QStringLiteral("controls"));
  return QStringLiteral("%1; the fullest: %2.")
      .arg(counted(static_cast<int>(shapes.size()), QStringLiteral("sitting"), QStringLiteral("sittings")), each);
}

}  // namespace

QString ServingSection::signature(const Plan&) const {
  return QString::number(editor_.registers().lots.size());
}

void ServingSection::count_row(const QString& text, const QString& object, int Plan::*field, int lowest, int highest,
                               QVBoxLayout* down) {
  auto* across = row_in(down);
  auto* l = words(text, face(15), tokens().ink, this);
  l->setMinimumHeight(30);
  across->addWidget(l, 1, Qt::AlignTop);
  steppers(text, object, across,
           [field, lowest, highest](Plan& p, int way) { p.*field = std::clamp(p.*field + way, lowest, highest); });
  auto* count = blank(
      text, object, [field](const Plan& p) { return QString::number(p.*field); },
      [field, lowest, highest, text](Plan& p, const QString& typed) -> Result<void> {
        const auto read = parse_count(typed, lowest, highest, plain(text));
        if (!read) return tl::unexpected<Error>(read.error());
        p.*field = *read;
        return {};
      });
  count->line()->setAlignment(Qt::AlignRight);
  count->setFixedWidth(120);
  across->addWidget(count, 0, Qt::AlignTop);
  speak_under(count, down);
}

void ServingSection::cup_row(QVBoxLayout* down) {
  auto* across = row_in(down);
  auto* l = words(QStringLiteral("each cup"), face(15), tokens().ink, this);
  l->setMinimumHeight(30);
  across->addWidget(l, 1, Qt::AlignTop);
  steppers(QStringLiteral("Each cup"), QStringLiteral("cup"), across, [](Plan& p, int way) {
    p.cup = Volume(std::clamp<std::int64_t>(p.cup.count() + way * 5'000, least_cup, most_cup));
  });
  auto* volume = blank(
      QStringLiteral("Each cup, ml"), QStringLiteral("cup"),
      [this](const Plan& p) { return qt(volume_text(p.cup, editor_.style())); },
      [](Plan& p, const QString& text) -> Result<void> {
        const auto read = parse_amount(text, QStringLiteral("ml"), 3, least_cup, most_cup, "each cup", "1 to 500 ml");
        if (!read) return tl::unexpected<Error>(read.error());
        if (!*read) return fail(ErrorKind::missing, "each cup", {}, "1 to 500 ml");
        p.cup = Volume(**read);
        return {};
      });
  volume->line()->setAlignment(Qt::AlignRight);
  volume->setFixedWidth(120);
  across->addWidget(volume, 0, Qt::AlignTop);
  speak_under(volume, down);
}

void ServingSection::build(const Plan&, QVBoxLayout* down) {
  heading(QStringLiteral("How it is served"), down);
  count_row(QStringLiteral("brew pairs of each leaf"), QStringLiteral("brew_pairs"), &Plan::brew_pairs, 1, 40, down);
  count_row(QStringLiteral("pairs a sitting"), QStringLiteral("pairs_per_sitting"), &Plan::pairs_per_sitting, 1, 40,
            down);
  count_row(QStringLiteral("sittings, 0: as many as needed"), QStringLiteral("sittings"), &Plan::sittings, 0,
            most_sittings, down);
  cup_row(down);
  soft_bound(down, [](const Plan& p) { return sittings_text(p); });
  form_row(QStringLiteral("served"),
           choice(
               QStringLiteral("Serving way"), QStringLiteral("serving_way"),
               [](const Plan&) {
                 return QStringList{QStringLiteral("from a lidded holding bath"), QStringLiteral("at the same moment"),
                                    QStringLiteral("each taster brews alone")};
               },
               [](const Plan& p) { return static_cast<int>(p.serving_way); },
               [](Plan& p, int at) { p.serving_way = static_cast<ServingWay>(at); }),
           down, 0);
  form_row(QStringLiteral("sipped"),
           choice(
               QStringLiteral("Sip protocol"), QStringLiteral("sip"),
               [](const Plan&) {
                 return QStringList{QStringLiteral("cup by cup"), QStringLiteral("attribute by attribute")};
               },
               [](const Plan& p) { return static_cast<int>(p.sip); },
               [](Plan& p, int at) { p.sip = static_cast<SipProtocol>(at); }),
           down, 0);
  notes_under(QStringLiteral("sip"), down);
  form_row(QStringLiteral("liquor"),
           choice(
               QStringLiteral("Spit or swallow"), QStringLiteral("swallow"),
               [](const Plan&) {
                 return QStringList{QStringLiteral("spat out, as a rule"), QStringLiteral("swallowed, as a rule")};
               },
               [](const Plan& p) { return p.swallow ? 1 : 0; }, [](Plan& p, int at) { p.swallow = at == 1; }),
           down, 0);
  down->addWidget(tick(
      QStringLiteral("hide the first cup’s scores until both are in"), QStringLiteral("hide_first_cup"),
      [](const Plan& p) { return p.hide_first_cup; }, [](Plan& p, bool on) { p.hide_first_cup = on; }));
  form_row(QStringLiteral("warm-up leaf"),
           choice(
               QStringLiteral("Warm-up leaf"), QStringLiteral("warm_up"),
               [this](const Plan&) { return QStringList{QStringLiteral("none")} + lot_codes(editor_); },
               [this](const Plan& p) { return lot_place(editor_, p.warm_up_lot) + 1; },
               [this](Plan& p, int at) { p.warm_up_lot = lot_at(editor_, at - 1); }),
           down, 0);
  notes_under(QStringLiteral("warm_up"), down);
}

// ---- Controls -----------------------------------------------------------------------------------------------------

QString ControlsSection::signature(const Plan& plan) const {
  QString out;
  for (const auto& c : plan.controls) out += QStringLiteral("%1,").arg(static_cast<int>(c.kind));
  return out + QString::number(editor_.registers().lots.size());
}

void ControlsSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("Controls"), down);
  if (plan.controls.empty())
    soft(QStringLiteral("A blank is two brews of one level, a yardstick a liquor against itself diluted, a repeat a "
                        "brew pair again with sides swapped: they show whether the panel can be believed."),
         down);
  for (std::size_t i = 0; i < plan.controls.size(); ++i) row(plan, i, down);
  notes_under(QStringLiteral("control.add"), down);
  if (editor_.registers().lots.empty()) return;
  if (auto* add =
          act(QStringLiteral("add a control"), QStringLiteral("Add a control"), QStringLiteral("control.add"), [this] {
            say(editor_.set([this](Plan& p) {
              Control c;
              c.lot = p.lots.empty() ? lot_at(editor_, 0) : p.lots.front();
              c.level = p.lever.reference();
              c.sitting = static_cast<int>(p.controls.size()) + 1;
              c.sitting = std::min(c.sitting, std::max(1, static_cast<int>(sitting_shapes(p).size())));
              p.controls.push_back(c);
            }));
          }))
    down->addWidget(add, 0, Qt::AlignLeft);
}

void ControlsSection::row(const Plan& plan, std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const QString object = QStringLiteral("control.%1").arg(at), name = QStringLiteral("Control %1").arg(at + 1);
  const auto get = [at](const Plan& p) { return at < p.controls.size() ? p.controls[at] : Control{}; };
  across->addWidget(
      choice(
          name + QStringLiteral(", kind"), object + QStringLiteral(".kind"),
          [](const Plan&) {
            return QStringList{QStringLiteral("blank"), QStringLiteral("yardstick"), QStringLiteral("repeat")};
          },
          [get](const Plan& p) { return static_cast<int>(get(p).kind); },
          [at](Plan& p, int k) { p.controls.at(at).kind = static_cast<ControlKind>(k); }),
      0, Qt::AlignTop);
  across->addWidget(choice(
                        name + QStringLiteral(", leaf"), object + QStringLiteral(".lot"),
                        [this](const Plan&) { return lot_codes(editor_); },
                        [get, this](const Plan& p) { return lot_place(editor_, get(p).lot); },
                        [at, this](Plan& p, int l) { p.controls.at(at).lot = lot_at(editor_, l); }),
                    0, Qt::AlignTop);
  across->addWidget(choice(
                        name + QStringLiteral(", level"), object + QStringLiteral(".level"),
                        [this](const Plan& p) { return level_names(p, editor_.style()); },
                        [get](const Plan& p) { return static_cast<int>(get(p).level); },
                        [at](Plan& p, int l) { p.controls.at(at).level = static_cast<std::size_t>(l); }),
                    0, Qt::AlignTop);
  across->addWidget(
      choice(
          name + QStringLiteral(", sitting"), object + QStringLiteral(".sitting"),
          [get](const Plan& p) {
            // One more than there are, since a control may ask for a sitting of its own.
            const int there = std::max({static_cast<int>(sitting_shapes(p).size()), p.sittings, get(p).sitting});
            QStringList all;
            for (int i = 1; i <= std::min(there + 1, most_sittings); ++i) all << QStringLiteral("sitting %1").arg(i);
            return all;
          },
          [get](const Plan& p) { return get(p).sitting - 1; },
          [at](Plan& p, int s) { p.controls.at(at).sitting = s + 1; }),
      0, Qt::AlignTop);
  across->addStretch(1);
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Take control %1 out").arg(at + 1),
                       object + QStringLiteral(".remove"),
                       [this, at] { say(editor_.set([at](Plan& p) { erase_at(p.controls, at); })); }))
    across->addWidget(away, 0, Qt::AlignTop);
  if (plan.controls[at].kind == ControlKind::yardstick) dilution(at, down);
}

void ControlsSection::dilution(std::size_t at, QVBoxLayout* down) {
  const QString name = QStringLiteral("Control %1").arg(at + 1);
  form_row(QStringLiteral("diluted by"),
           blank(
               name + QStringLiteral(", dilution"), QStringLiteral("control.%1.dilution").arg(at),
               [this, at](const Plan& p) {
                 const std::int64_t value = at < p.controls.size() ? p.controls[at].dilution.count() : 0;
                 return amount_text(value, QStringLiteral("%"), 1, value % 10 == 0 ? 0 : 1, editor_.style());
               },
               [at](Plan& p, const QString& text) -> Result<void> {
                 const auto read =
                     parse_amount(text, QStringLiteral("%"), 1, 1, 900, "yardstick, dilution", "0.1 % to 90 %");
                 if (!read) return tl::unexpected<Error>(read.error());
                 if (!*read) return fail(ErrorKind::missing, "yardstick, dilution", {}, "0.1 % to 90 %");
                 p.controls.at(at).dilution = Permille(**read);
                 return {};
               }),
           down);
}

}  // namespace likeleaf::ui
