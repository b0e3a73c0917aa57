// What would matter: attributes with their mark, margin and expectation; the house's own words and attributes.
#include <QBoxLayout>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "core/codec/builtin.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {
namespace {

QString expectation_text(Expectation e, const QString& level) {
  switch (e) {
    case Expectation::none:
      return QStringLiteral("no expectation");
    case Expectation::more:
      return QStringLiteral("more at %1").arg(level);
    case Expectation::less:
      return QStringLiteral("less at %1").arg(level);
    case Expectation::same:
      break;
  }
  return QStringLiteral("the same");
}

/// The level that expectations speak of: b of the first contrast.
QString judged_level(const Plan& plan, const Style& style) {
  const auto all = contrasts(plan.lever);
  const QString said = all.empty() ? QString() : qt(level_text(plan.lever, all.front().b, style));
  return said.isEmpty() ? QStringLiteral("the other level") : said;
}

bool built_in(const std::string& id) {
  return find_attribute(builtin_attributes(), id) != nullptr;
}

PlanAttribute attribute_in(const Plan& plan, std::size_t at) {
  return at < plan.attributes.size() ? plan.attributes[at] : PlanAttribute{};
}

}  // namespace

QString MatterSection::signature(const Plan& plan) const {
  QString out;
  for (const auto& a : plan.attributes) out += qt(a.attribute) + QLatin1Char(',');
  return out + QString::number(editor_.attributes().size());
}

void MatterSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("What would matter"), down, 22);
  soft(QStringLiteral("● decides; the rest is noted. The smallest difference that would change how we brew, and what "
                      "we expect."),
       down);
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(4);
  grid->setColumnStretch(0, 1);
  down->addLayout(grid);
  int line = 0;
  for (std::size_t i = 0; i < plan.attributes.size(); ++i) {
    const std::string id = plan.attributes[i].attribute;
    row(i, id, grid, line);
    line += 2;  // the second is room for sentences
    if (is_open(QStringLiteral("attribute.%1.facts").arg(qt(id))))
      grid->addWidget(details(plan, i, id), line++, 0, 1, 4);
  }
  notes_under(QStringLiteral("attribute.own.add"), down);
  if (editor_.locked()) return;
  for (const auto& attribute : editor_.attributes()) {
    if (std::ranges::find(plan.attributes, attribute.id, &PlanAttribute::attribute) != plan.attributes.end()) continue;
    if (auto* add =
            act(QStringLiteral("note %1 too").arg(qt(attribute.name).toLower()),
                QStringLiteral("Note %1 too").arg(qt(attribute.name)),
                QStringLiteral("attribute.%1.add").arg(qt(attribute.id)),
                [this, id = attribute.id, margin = attribute.margin] {
                  say(editor_.set([&](Plan& p) { p.attributes.push_back({id, false, margin, Expectation::none}); }));
                }))
      down->addWidget(add, 0, Qt::AlignLeft);
  }
  if (auto* own = act(QStringLiteral("an attribute of our own"), QStringLiteral("Add an attribute of the house's own"),
                      QStringLiteral("attribute.own.add"), [this] { add_own(); }))
    down->addWidget(own, 0, Qt::AlignLeft);
}

void MatterSection::row(std::size_t i, const std::string& id, QGridLayout* grid, int line) {
  const QString object = QStringLiteral("attribute.") + qt(id), name = attribute_name(editor_, id);
  const auto* known = find_attribute(editor_.attributes(), id);
  const Scale scale = known ? known->scale : Scale::intensity;
  auto* decides = tick(
      [this, id](const Plan&) {
        const auto a = attribute_of(id);
        return qt(a.name) + (a.house_word.empty() ? QString() : QStringLiteral(" · ") + qt(a.house_word));
      },
      object, [i](const Plan& p) { return attribute_in(p, i).deciding; },
      [i](Plan& p, bool on) { p.attributes.at(i).deciding = on; }, true);
  if (!editor_.locked()) decides->setAccessibleName(name + QStringLiteral(" decides"));
  grid->addWidget(decides, line, 0, Qt::AlignTop);
  auto* margin = blank(
      name + QStringLiteral(", margin"), object + QStringLiteral(".margin"),
      [this, i, scale](const Plan& p) { return margin_text(scale, attribute_in(p, i).margin, editor_.style()); },
      [i, scale, name](Plan& p, const QString& text) -> Result<void> {
        const auto read = parse_margin(scale, text, plain(name) + ", margin");
        if (!read) return tl::unexpected<Error>(read.error());
        p.attributes.at(i).margin = *read;
        return {};
      });
  margin->setFixedWidth(60);
  grid->addWidget(margin, line, 1, Qt::AlignTop);
  auto* sentences = new QVBoxLayout;
  speak_under(margin, sentences);
  grid->addLayout(sentences, line + 1, 0, 1, 4);
  auto* expected = choice(
      name + QStringLiteral(", expectation"), object + QStringLiteral(".expected"),
      [this](const Plan& p) {
        QStringList all;
        for (int e = 0; e < 4; ++e)
          all << expectation_text(static_cast<Expectation>(e), judged_level(p, editor_.style()));
        return all;
      },
      [i](const Plan& p) { return static_cast<int>(attribute_in(p, i).expected); },
      [i](Plan& p, int at) { p.attributes.at(i).expected = static_cast<Expectation>(at); });
  expected->setFixedWidth(136);
  grid->addWidget(expected, line, 2, Qt::AlignTop);
  grid->addWidget(
      fold(QStringLiteral("…"), QStringLiteral("Words of %1").arg(name.toLower()), object + QStringLiteral(".facts")),
      line, 3, Qt::AlignTop);
}

Attribute MatterSection::attribute_of(const std::string& id) const {
  const auto* a = find_attribute(editor_.attributes(), id);
  if (a) return *a;
  Attribute unknown;
  unknown.id = unknown.name = id;
  return unknown;
}

QWidget* MatterSection::details(const Plan&, std::size_t at, const std::string& id) {
  auto* page = new QWidget(this);
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 0, 8);
  down->setSpacing(4);
  const QString object = QStringLiteral("attribute.") + qt(id);
  if (built_in(id)) {
    const Attribute a = attribute_of(id);
    auto* said = soft(
        qt(a.definition) + QStringLiteral("; ") + qt(a.low) + QStringLiteral(" to ") + qt(a.high) + QLatin1Char('.'),
        down);
    said->setContentsMargins(22, 0, 0, 0);
  } else {
    own_fields(id, object, down);
  }
  form_row(QStringLiteral("our word"),
           own_blank(
               QStringLiteral("The house's word for %1").arg(attribute_name(editor_, id).toLower()),
               object + QStringLiteral(".word"), [this, id](const Plan&) { return qt(attribute_of(id).house_word); },
               [this, id](const QString& text) {
                 Attribute a = attribute_of(id);
                 if (const auto good = take_text(a.house_word, text, name_length, "house word"); !good)
                   return qt(wording::sentence(good.error()));
                 return editor_.put(a);
               },
               QStringLiteral("shown beside the standard one")),
           down);
  if (auto* away = act(QStringLiteral("leave it out of this trial"),
                       QStringLiteral("Leave %1 out").arg(attribute_name(editor_, id).toLower()),
                       object + QStringLiteral(".remove"),
                       [this, at] { say(editor_.set([at](Plan& p) { erase_at(p.attributes, at); })); })) {
    auto* across = row_in(down);
    across->setContentsMargins(18, 0, 0, 0);
    across->addWidget(away);
    across->addStretch(1);
  }
  return page;
}

void MatterSection::own_fields(const std::string& id, const QString& object, QVBoxLayout* down) {
  const auto text_row = [&](const QString& name, const QString& part, std::string Attribute::*member, std::size_t most,
                            const QString& hint) {
    form_row(name,
             own_blank(
                 name + QStringLiteral(" of our attribute"), object + part,
                 [this, id, member](const Plan&) { return qt(attribute_of(id).*member); },
                 [this, id, member, most, name](const QString& text) {
                   Attribute a = attribute_of(id);
                   if (const auto good = take_text(a.*member, text, most, "attribute, " + name.toStdString()); !good)
                     return qt(wording::sentence(good.error()));
                   return editor_.put(a);
                 },
                 hint),
             down);
  };
  text_row(QStringLiteral("name"), QStringLiteral(".name"), &Attribute::name, name_length, {});
  text_row(QStringLiteral("what is judged"), QStringLiteral(".definition"), &Attribute::definition, sentence_length,
           QStringLiteral("one line, shown while scoring"));
  text_row(QStringLiteral("0 is"), QStringLiteral(".low"), &Attribute::low, sentence_length,
           QStringLiteral("the low end of the scale"));
  text_row(QStringLiteral("10 is"), QStringLiteral(".high"), &Attribute::high, sentence_length,
           QStringLiteral("the high end"));
  text_row(QStringLiteral("more of it"), QStringLiteral(".more"), &Attribute::more, name_length,
           QStringLiteral("more minty"));
  text_row(QStringLiteral("less of it"), QStringLiteral(".less"), &Attribute::less, name_length,
           QStringLiteral("less minty"));
}

/// Scored 0 to 10 by half steps, like most; its id is for ever, its name is there to be typed over.
void MatterSection::add_own() {
  Attribute own;
  int n = 1;
  while (find_attribute(editor_.attributes(), "own_" + std::to_string(n))) ++n;
  own.id = "own_" + std::to_string(n);
  own.name = "Our attribute " + std::to_string(n);
  own.more = "more of our attribute " + std::to_string(n);
  own.less = "less of our attribute " + std::to_string(n);
  own.direct = true;
  if (const QString refused = editor_.put(own); !refused.isEmpty()) return say(refused);
  const QString object = QStringLiteral("attribute.") + qt(own.id);
  close_all();
  open(object + QStringLiteral(".facts"));
  say(editor_.set([&](Plan& p) { p.attributes.push_back({own.id, false, own.margin, Expectation::none}); }));
  editor_.look_again();
  go_to(object + QStringLiteral(".name"));
}

}  // namespace likeleaf::ui
