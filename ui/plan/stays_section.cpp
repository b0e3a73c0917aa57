// What stays: the constants with their tolerances.
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "core/domain/asked.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {
namespace {

constexpr int constant_kinds = static_cast<int>(ConstantKind::other) + 1;
constexpr int width_of_a_name = 104, width_of_a_tolerance = 84;

std::string constant_title(const Constant& constant) {
  return constant.kind == ConstantKind::other && !constant.name.empty() ? constant.name : constant_name(constant.kind);
}

/// As short as a bench sheet would say it.
QString row_name(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::tasting_temperature:
      return QStringLiteral("tasted at");
    case ConstantKind::water_temperature:
      return QStringLiteral("poured at");
    case ConstantKind::eyes:
      return QStringLiteral("eyes");
    default:
      return qt(constant_name(kind));
  }
}

bool of_the_register(ConstantKind kind) {
  return kind == ConstantKind::water || kind == ConstantKind::vessel;
}

}  // namespace

QString StaysSection::signature(const Plan& plan) const {
  QString out = QString::number(static_cast<int>(plan.lever.kind)) + QLatin1Char(':') + register_signature();
  for (const auto& c : plan.constants) out += QStringLiteral(",%1%2").arg(static_cast<int>(c.kind)).arg(qt(c.record));
  return out;
}

void StaysSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("What stays"), down);
  for (std::size_t i = 0; i < plan.constants.size(); ++i) row(plan, i, down);
  if (editor_.locked()) return;
  std::vector<ConstantKind> left;
  for (int i = 0; i < constant_kinds; ++i) {
    const auto kind = static_cast<ConstantKind>(i);
    if (kind == ConstantKind::other || !find_constant(plan, kind)) left.push_back(kind);
  }
  QStringList names{QStringLiteral("hold something else…")};
  for (const auto kind : left) names << qt(constant_name(kind));
  down->addWidget(choice(
                      QStringLiteral("Hold something else"), QStringLiteral("constant.add"),
                      [names](const Plan&) { return names; }, [](const Plan&) { return 0; },
                      [left](Plan& p, int at) {
                        if (at < 1) return;
                        Constant c;
                        c.kind = left.at(static_cast<std::size_t>(at - 1));
                        p.constants.push_back(c);
                      }),
                  0, Qt::AlignLeft);
}

void StaysSection::row(const Plan& plan, std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const Constant& constant = plan.constants[at];
  const ConstantKind kind = constant.kind;
  const QString object = QStringLiteral("constant.%1").arg(at);
  if (kind == ConstantKind::other) {
    auto* named = blank(
        QStringLiteral("Name of the constant"), object + QStringLiteral(".name"),
        [at](const Plan& p) { return at < p.constants.size() ? qt(p.constants[at].name) : QString(); },
        [at](Plan& p, const QString& text) {
          return take_text(p.constants.at(at).name, text, name_length, "name of the constant");
        },
        QStringLiteral("what"));
    named->setFixedWidth(width_of_a_name);
    across->addWidget(named, 0, Qt::AlignTop);
  } else {
    auto* l = words(row_name(kind), face(15), tokens().ink, this);
    l->setFixedWidth(width_of_a_name);
    l->setMinimumHeight(30);
    across->addWidget(l, 0, Qt::AlignTop);
  }
  if (has_number(kind))
    number(at, kind, constant_of(plan.lever.kind) == kind, across, down);
  else
    text(at, kind, across, down);
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Hold %1 no longer").arg(qt(constant_title(constant))),
                       object + QStringLiteral(".remove"),
                       [this, at] { say(editor_.set([at](Plan& p) { erase_at(p.constants, at); })); }))
    across->addWidget(away, 0, Qt::AlignTop);
  if (of_the_register(kind)) record(plan, at, kind, down);
  if (is_open(object + QStringLiteral(".record.facts")))
    facts(kind == ConstantKind::water ? Kind::water : Kind::vessel, constant.record, object + QStringLiteral(".record"),
          down);
}

/// Target and tolerance; of what changes only how closely each level is kept.
void StaysSection::number(std::size_t at, ConstantKind kind, bool is_lever, QHBoxLayout* across, QVBoxLayout* down) {
  const QString name = qt(constant_name(kind)), object = QStringLiteral("constant.%1").arg(at);
  const auto get = [at](const Plan& p) { return at < p.constants.size() ? p.constants[at] : Constant{}; };
  if (is_lever) {
    auto* l = soft(QStringLiteral("as each level says"), across);
    l->setMinimumHeight(30);
    across->addStretch(1);
    notes_under(object, down);
  } else {
    auto* value = blank(
        name, object, [this, get, kind](const Plan& p) { return target_text(kind, get(p).target, editor_.style()); },
        [this, at, kind, name](Plan& p, const QString& text) -> Result<void> {
          auto read = parse_target(kind, text, editor_.style(), plain(name));
          if (!read) return tl::unexpected<Error>(read.error());
          p.constants.at(at).target = *read;
          return {};
        });
    across->addWidget(value, 1);
    speak_under(value, down);
    steppers(name, object, across, [at, kind](Plan& p, int way) {
      auto& v = p.constants.at(at).target;
      v = stepped(kind, v, way);
    });
  }
  auto* tolerance = blank(
      name + QStringLiteral(", tolerance"), object + QStringLiteral(".tolerance"),
      [this, get, kind](const Plan& p) { return tolerance_text(kind, get(p).tolerance, editor_.style()); },
      [this, at, kind, name](Plan& p, const QString& text) -> Result<void> {
        auto read = parse_tolerance(kind, text, editor_.style(), plain(name) + ", tolerance");
        if (!read) return tl::unexpected<Error>(read.error());
        p.constants.at(at).tolerance = *read;
        return {};
      },
      QStringLiteral("±"));
  tolerance->line()->setFont(face(15));
  tolerance->line()->setAlignment(Qt::AlignRight);
  tolerance->setFixedWidth(width_of_a_tolerance);
  across->addWidget(tolerance, 0, Qt::AlignTop);
  speak_under(tolerance, down);
}

void StaysSection::text(std::size_t at, ConstantKind kind, QHBoxLayout* across, QVBoxLayout* down) {
  const QString name = qt(constant_name(kind));
  auto* said = text_blank(
      name, QStringLiteral("constant.%1").arg(at),
      [at](const Plan& p) { return at < p.constants.size() ? qt(p.constants[at].text) : QString(); },
      [at, name](Plan& p, const QString& text) {
        return take_text(p.constants.at(at).text, text, sentence_length, plain(name));
      },
      QStringLiteral("the same for all"));
  across->addWidget(said, 1, Qt::AlignTop);
  speak_under(said, down);
}

/// Which water or vessel of the register it is; its words take the name over while they say nothing else.
void StaysSection::record(const Plan& plan, std::size_t at, ConstantKind kind, QVBoxLayout* down) {
  const QString name = qt(constant_name(kind)), object = QStringLiteral("constant.%1").arg(at);
  const Kind which = kind == ConstantKind::water ? Kind::water : Kind::vessel;
  auto* chosen = record_choice(
      which, name + QStringLiteral(", of the register"), object + QStringLiteral(".record"),
      QStringLiteral("which one of the register…"),
      [at](const Plan& p) { return at < p.constants.size() ? p.constants[at].record : std::string(); },
      [this, at, which](Plan& p, const std::string& id, const std::string& said) {
        auto& constant = p.constants.at(at);
        const bool follows =
            constant.text.empty() || constant.text == record_name(which, constant.record).toStdString();
        constant.record = id;
        if (follows && !id.empty()) constant.text = said;
      });
  auto* across = row_in(down);
  across->setContentsMargins(width_of_a_name + 6, 0, 0, 0);
  // Sealed, its words and its facts say which it is.
  chosen->setVisible(!editor_.locked());
  across->addWidget(chosen, 0, Qt::AlignTop);
  across->addStretch(1);
  if (!plan.constants[at].record.empty())
    across->addWidget(fold(QStringLiteral("facts"), QStringLiteral("Facts of the %1").arg(name),
                           object + QStringLiteral(".record.facts")),
                      0, Qt::AlignTop);
}

}  // namespace likeleaf::ui
