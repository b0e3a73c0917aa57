// The question, what changes, and its levels.
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "core/base/number_text.h"
#include "core/planning/plan_starter.h"
#include "core/wording/lever_text.h"
#include "core/wording/plan_text.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {
namespace {

constexpr int levers = static_cast<int>(LeverKind::other) + 1;

bool has_schedule(LeverKind kind) {
  return kind == LeverKind::brew_schedule || kind == LeverKind::infusion_number;
}

bool from_register(LeverKind kind) {
  return kind == LeverKind::water || kind == LeverKind::vessel;
}

/// What another infusion starts from: the one before it, else the plan's usual brew.
InfusionPlan next_infusion(const Plan& plan, std::size_t level) {
  const auto& schedule = plan.lever.levels.at(level).schedule;
  if (!schedule.empty()) return schedule.back();
  const auto held = [&](ConstantKind kind, std::int64_t otherwise) {
    const auto* c = find_constant(plan, kind);
    return c && c->target ? *c->target : otherwise;
  };
  return {Temperature(held(ConstantKind::water_temperature, 85'000)), Duration(held(ConstantKind::steep_time, 45'000)),
          Mass(held(ConstantKind::water_mass, 200'000))};
}

QString follows_text(const Session& session, IdOf<Trial> earlier) {
  for (const auto& row : session.names())
    if (row.id == earlier) return QStringLiteral("follows trial %1: %2").arg(row.number).arg(qt(row.question));
  return QStringLiteral("follows a trial that is not in this book");
}

const InfusionPlan* infusion_at(const Plan& plan, std::size_t level, std::size_t at) {
  return level < plan.lever.levels.size() && at < plan.lever.levels[level].schedule.size()
             ? &plan.lever.levels[level].schedule[at]
             : nullptr;
}

std::int64_t part_of(const InfusionPlan& infusion, ConstantKind kind) {
  return kind == ConstantKind::water_temperature ? infusion.pour.milli_celsius()
         : kind == ConstantKind::steep_time      ? infusion.steep.count()
                                                 : infusion.water.count();
}

void set_part(InfusionPlan& infusion, ConstantKind kind, std::int64_t value) {
  if (kind == ConstantKind::water_temperature)
    infusion.pour = Temperature(value);
  else if (kind == ConstantKind::steep_time)
    infusion.steep = Duration(value);
  else
    infusion.water = Mass(value);
}

}  // namespace

QString ChangesSection::signature(const Plan& plan) const {
  QString out = QStringLiteral("%1,").arg(static_cast<int>(plan.lever.kind)) + register_signature();
  for (const auto& level : plan.lever.levels)
    out += QStringLiteral(",%1%2").arg(level.schedule.size()).arg(qt(level.record));
  return out + (plan.follows ? qt(plan.follows->text()) : QString());
}

void ChangesSection::question(const Plan& plan, QVBoxLayout* down) {
  auto* asked = blank(
      QStringLiteral("Question"), QStringLiteral("question"), [](const Plan& p) { return qt(p.question); },
      [](Plan& p, const QString& text) { return take_text(p.question, text, sentence_length, "question"); },
      QStringLiteral("the one thing that this trial asks"));
  asked->line()->setFont(face(17, Weight::semi_bold));
  down->addWidget(asked);
  if (plan.follows)
    soft(follows_text(editor_.session(), *plan.follows), down)->setObjectName(QStringLiteral("followed"));
  if (auto* suggest = act(QStringLiteral("ask what this change does"), QStringLiteral("Ask what this change does"),
                          QStringLiteral("question.suggest"), [this] {
                            say(editor_.set([this](Plan& p) {
                              p.question = "What does " + wording::changes_text(p.lever, editor_.style()) + " do?";
                            }));
                          })) {
    down->addWidget(suggest, 0, Qt::AlignLeft);
    bind([suggest, this](const Plan& p) {
      const auto said = [&](std::size_t i) { return !level_text(p.lever, i, editor_.style()).empty(); };
      suggest->setVisible(p.question.empty() && p.lever.levels.size() > 1 && said(0) && said(1));
    });
  }
}

void ChangesSection::build(const Plan& plan, QVBoxLayout* down) {
  question(plan, down);
  down->addSpacing(8);
  heading(QStringLiteral("What changes"), down, 22);
  down->addWidget(choice(
                      QStringLiteral("What changes"), QStringLiteral("lever"),
                      [](const Plan&) {
                        QStringList all;
                        for (int i = 0; i < levers; ++i) all << qt(lever_name(static_cast<LeverKind>(i)));
                        return all;
                      },
                      [](const Plan& p) { return static_cast<int>(p.lever.kind); },
                      [](Plan& p, int at) { p = with_lever(std::move(p), static_cast<LeverKind>(at)); }),
                  0, Qt::AlignLeft);
  if (plan.lever.kind == LeverKind::other)
    down->addWidget(blank(
        QStringLiteral("Name of what changes"), QStringLiteral("lever.name"),
        [](const Plan& p) { return qt(p.lever.name); },
        [](Plan& p, const QString& text) { return take_text(p.lever.name, text, name_length, "what changes"); },
        QStringLiteral("what it is")));
  if (has_schedule(plan.lever.kind))
    soft(QStringLiteral("A level is its infusions in order, all of the same leaf."), down);
  for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) level_row(plan, i, down);
  notes_under(QStringLiteral("levels"), down);
  if (auto* more = act(QStringLiteral("another level"), QStringLiteral("Add a level"), QStringLiteral("level.add"),
                       [this] { say(editor_.set([](Plan& p) { p.lever.levels.emplace_back(); })); }))
    down->addWidget(more, 0, Qt::AlignLeft);
}

void ChangesSection::level_number(std::size_t at, ConstantKind kind, QHBoxLayout* across) {
  const QString name = QStringLiteral("Level %1").arg(at + 1), object = QStringLiteral("level.%1").arg(at);
  auto* value = blank(
      name, object,
      [this, at, kind](const Plan& p) {
        return at < p.lever.levels.size() ? target_text(kind, p.lever.levels[at].value, editor_.style()) : QString();
      },
      [this, at, kind, name](Plan& p, const QString& text) -> Result<void> {
        auto read = parse_target(kind, text, editor_.style(), plain(name));
        if (!read) return tl::unexpected<Error>(read.error());
        p.lever.levels.at(at).value = *read;
        return {};
      });
  value->set_quiet(false);
  across->addWidget(value, 1);
  steppers(name, object, across, [at, kind](Plan& p, int way) {
    auto& v = p.lever.levels.at(at).value;
    v = stepped(kind, v, way);
  });
}

void ChangesSection::level_name(const Plan& plan, std::size_t at, QHBoxLayout* across) {
  const QString name = QStringLiteral("Level %1").arg(at + 1), object = QStringLiteral("level.%1").arg(at);
  const auto get = [at](const Plan& p) { return at < p.lever.levels.size() ? p.lever.levels[at] : Level{}; };
  if (from_register(plan.lever.kind)) {
    const Kind kind = plan.lever.kind == LeverKind::water ? Kind::water : Kind::vessel;
    across->addWidget(record_choice(
                          kind, name + QStringLiteral(", of the register"), object + QStringLiteral(".record"),
                          QStringLiteral("in words"), [get](const Plan& p) { return get(p).record; },
                          [at](Plan& p, const std::string& id, const std::string& said) {
                            auto& level = p.lever.levels.at(at);
                            level.record = id;
                            if (!id.empty()) level.label = said;
                          }),
                      0, Qt::AlignTop);
  }
  auto* label = blank(
      name, object, [get](const Plan& p) { return qt(get(p).label); },
      [at, name](Plan& p, const QString& text) {
        return take_text(p.lever.levels.at(at).label, text, name_length, plain(name));
      },
      QStringLiteral("name"));
  label->set_quiet(false);
  across->addWidget(label, 1);
}

void ChangesSection::level_row(const Plan& plan, std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const QString object = QStringLiteral("level.%1").arg(at);
  const auto kind = constant_of(plan.lever.kind);
  if (kind && is_numeric(plan.lever.kind))
    level_number(at, *kind, across);
  else
    level_name(plan, at, across);
  auto* now = tick(
      QStringLiteral("as now"), object + QStringLiteral(".now"),
      [at](const Plan& p) { return at < p.lever.levels.size() && p.lever.levels[at].present_way; },
      [at](Plan& p, bool on) {
        for (std::size_t i = 0; i < p.lever.levels.size(); ++i) p.lever.levels[i].present_way = on && i == at;
      });
  now->setAccessibleName(QStringLiteral("Level %1 is the way we do it now").arg(at + 1));
  across->addWidget(now, 0, Qt::AlignTop);
  if (from_register(plan.lever.kind) && !plan.lever.levels[at].record.empty())
    across->addWidget(fold(QStringLiteral("facts"), QStringLiteral("Facts of level %1").arg(at + 1),
                           object + QStringLiteral(".record.facts")),
                      0, Qt::AlignTop);
  if (plan.lever.levels.size() > 2)
    if (auto* away = act(QStringLiteral("×"), QStringLiteral("Take level %1 out").arg(at + 1),
                         object + QStringLiteral(".remove"),
                         [this, at] { say(editor_.set([at](Plan& p) { erase_at(p.lever.levels, at); })); }))
      across->addWidget(away, 0, Qt::AlignTop);
  if (is_open(object + QStringLiteral(".record.facts")) && from_register(plan.lever.kind))
    facts(plan.lever.kind == LeverKind::water ? Kind::water : Kind::vessel, plan.lever.levels[at].record,
          object + QStringLiteral(".record"), down);
  if (has_schedule(plan.lever.kind)) schedule(plan, at, down);
}

void ChangesSection::schedule(const Plan& plan, std::size_t at, QVBoxLayout* down) {
  for (std::size_t i = 0; i < plan.lever.levels[at].schedule.size(); ++i) infusion_row(at, i, down);
  auto* add = act(QStringLiteral("another infusion"), QStringLiteral("Add an infusion to level %1").arg(at + 1),
                  QStringLiteral("level.%1.infusion.add").arg(at), [this, at] {
                    std::size_t last = 0;
                    say(editor_.set([&](Plan& p) {
                      const auto next = next_infusion(p, at);
                      p.lever.levels.at(at).schedule.push_back(next);
                      last = p.lever.levels.at(at).schedule.size() - 1;
                    }));
                    go_to(QStringLiteral("level.%1.infusion.%2.pour").arg(at).arg(last));
                  });
  if (!add) return;
  auto* across = row_in(down);
  across->setContentsMargins(18, 0, 0, 6);
  across->addWidget(add);
  across->addStretch(1);
}

void ChangesSection::infusion_row(std::size_t level, std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  across->setContentsMargins(22, 0, 0, 0);
  const QString object = QStringLiteral("level.%1.infusion.%2").arg(level).arg(at);
  const QString name = QStringLiteral("Level %1, infusion %2").arg(level + 1).arg(at + 1);
  auto* number = soft(QStringLiteral("%1.").arg(at + 1), across);
  number->setMinimumHeight(30);
  const auto part = [&](const QString& said, const QString& end, ConstantKind kind) {
    auto* field = blank(
        name + QStringLiteral(", ") + said, object + end,
        [this, level, at, kind](const Plan& p) {
          const auto* infusion = infusion_at(p, level, at);
          return infusion ? target_text(kind, part_of(*infusion, kind), editor_.style()) : QString();
        },
        [this, level, at, kind, name, said](Plan& p, const QString& text) -> Result<void> {
          const std::string field_name = plain(name + QStringLiteral(", ") + said);
          const auto read = parse_target(kind, text, editor_.style(), field_name);
          if (!read) return tl::unexpected<Error>(read.error());
          if (!*read) return fail(ErrorKind::missing, field_name, {}, "a number; × takes the infusion out");
          set_part(p.lever.levels.at(level).schedule.at(at), kind, **read);
          return {};
        });
    field->setMinimumWidth(66);
    across->addWidget(field, 1);
    speak_under(field, down);
  };
  part(QStringLiteral("pour"), QStringLiteral(".pour"), ConstantKind::water_temperature);
  soft(QStringLiteral("for"), across)->setMinimumHeight(30);
  part(QStringLiteral("steep"), QStringLiteral(".steep"), ConstantKind::steep_time);
  soft(QStringLiteral("in"), across)->setMinimumHeight(30);
  part(QStringLiteral("water"), QStringLiteral(".water"), ConstantKind::water_mass);
  if (auto* away = act(
          QStringLiteral("×"), QStringLiteral("Take %1 out").arg(name.toLower()), object + QStringLiteral(".remove"),
          [this, level, at] { say(editor_.set([&](Plan& p) { erase_at(p.lever.levels.at(level).schedule, at); })); }))
    across->addWidget(away, 0, Qt::AlignTop);
}

}  // namespace likeleaf::ui
