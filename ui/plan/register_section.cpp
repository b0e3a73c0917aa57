#include "ui/plan/register_section.h"

#include <QBoxLayout>
#include <algorithm>

#include "core/base/entropy.h"
#include "core/base/number_text.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_text.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {
namespace {

constexpr std::int64_t most_salts = 5000, most_ph = 1400, most_volume = 20'000'000;

struct Listed {
  std::string id, name;
};

template <class Record>
std::vector<Listed> listed(const std::vector<Record>& records) {
  std::vector<Listed> out;
  for (const auto& r : records) out.push_back({r.id.text(), r.name});
  return out;
}

}  // namespace

QString RegisterSection::record_name(Kind kind, const std::string& id) const {
  const auto& book = editor_.registers();
  for (const auto& one : kind == Kind::water ? listed(book.waters) : listed(book.vessels))
    if (one.id == id) return qt(one.name);
  return {};
}

QString RegisterSection::register_signature() const {
  const auto& book = editor_.registers();
  return QStringLiteral("%1,%2").arg(book.waters.size()).arg(book.vessels.size());
}

QWidget* RegisterSection::record_choice(
    Kind kind, const QString& name, const QString& object, const QString& none,
    const std::function<std::string(const Plan&)>& record,
    const std::function<void(Plan&, const std::string& id, const std::string& name)>& take) {
  const auto all = [this, kind] {
    const auto& book = editor_.registers();
    return kind == Kind::water ? listed(book.waters) : listed(book.vessels);
  };
  const auto items = [this, all, kind, none](const Plan&) {
    QStringList out{none};
    for (const auto& one : all()) out << qt(one.name);
    if (!editor_.locked())
      out << (kind == Kind::water ? QStringLiteral("a new water…") : QStringLiteral("a new vessel…"));
    return out;
  };
  const auto read = [all, record](const Plan& plan) {
    const auto there = all();
    const auto found = std::ranges::find(there, record(plan), &Listed::id);
    return found == there.end() ? 0 : static_cast<int>(found - there.begin()) + 1;
  };
  return own_choice(name, object, items, read, [this, all, kind, object, take](int at) {
    auto there = all();
    std::string id, said;
    const bool fresh = at > static_cast<int>(there.size());
    if (fresh) {
      id = add_record(kind);
      if (id.empty()) return QString();
      said = record_name(kind, id).toStdString();
      open(object + QStringLiteral(".facts"));
    } else if (at > 0) {
      id = there[static_cast<std::size_t>(at - 1)].id;
      said = there[static_cast<std::size_t>(at - 1)].name;
    }
    const QString refused = editor_.set([&](Plan& plan) { take(plan, id, said); });
    if (fresh && refused.isEmpty()) {
      editor_.look_again();
      go_to(object + QStringLiteral(".name"));
    }
    return refused;
  });
}

std::string RegisterSection::add_record(Kind kind) {
  SystemEntropy entropy;
  const auto& book = editor_.registers();
  const auto free_name = [](const auto& records, const char* word) {
    for (int n = static_cast<int>(records.size()) + 1;; ++n) {
      const std::string name = word + std::to_string(n);
      if (std::ranges::none_of(records, [&](const auto& r) { return r.name == name; })) return name;
    }
  };
  const auto added = [this](const auto& record) {
    const QString refused = editor_.put(record);
    say(refused);
    return refused.isEmpty() ? record.id.text() : std::string();
  };
  if (kind == Kind::water) {
    Water water;
    water.id = IdOf<Water>::make(entropy);
    water.name = free_name(book.waters, "water ");
    return added(water);
  }
  Vessel vessel;
  vessel.id = IdOf<Vessel>::make(entropy);
  vessel.name = free_name(book.vessels, "vessel ");
  return added(vessel);
}

void RegisterSection::facts(Kind kind, const std::string& id, const QString& object, QVBoxLayout* down) {
  if (kind == Kind::water) {
    if (const auto water = IdOf<Water>::parse(id)) water_facts(*water, object, down);
  } else if (const auto vessel = IdOf<Vessel>::parse(id)) {
    vessel_facts(*vessel, object, down);
  }
}

void RegisterSection::water_facts(IdOf<Water> id, const QString& object, QVBoxLayout* down) {
  const auto get = [this, id] {
    const auto* w = find_record(editor_.registers().waters, id);
    return w ? *w : Water{};
  };
  const auto put = [this, get](const std::function<Result<void>(Water&)>& change) -> QString {
    Water w = get();
    if (const auto good = change(w); !good) return qt(wording::sentence(good.error()));
    return editor_.put(w);
  };
  form_row(QStringLiteral("name"),
           own_blank(
               QStringLiteral("Name of the water"), object + QStringLiteral(".name"),
               [get](const Plan&) { return qt(get().name); },
               [put](const QString& text) {
                 return put([&](Water& w) { return take_text(w.name, text, name_length, "water, name"); });
               }),
           down);
  const auto salts = [&](const QString& name, const QString& part, std::optional<std::int64_t> Water::*member) {
    form_row(name,
             own_blank(
                 name + QStringLiteral(" of the water"), object + part,
                 [get, member, this](const Plan&) {
                   return amount_text(get().*member, QStringLiteral("mg/l"), 0, 0, editor_.style());
                 },
                 [put, member, name](const QString& text) {
                   return put([&](Water& w) -> Result<void> {
                     const auto read = parse_amount(text, QStringLiteral("mg/l"), 0, 0, most_salts,
                                                    "water, " + name.toStdString(), "0 to 5000 mg/l, whole numbers");
                     if (!read) return tl::unexpected<Error>(read.error());
                     w.*member = *read;
                     return {};
                   });
                 },
                 QStringLiteral("mg/l")),
             down);
  };
  salts(QStringLiteral("hardness"), QStringLiteral(".hardness"), &Water::hardness_mg_l);
  salts(QStringLiteral("alkalinity"), QStringLiteral(".alkalinity"), &Water::alkalinity_mg_l);
  salts(QStringLiteral("dissolved salts"), QStringLiteral(".tds"), &Water::tds_mg_l);
  form_row(QStringLiteral("pH"),
           own_blank(
               QStringLiteral("pH of the water"), object + QStringLiteral(".ph"),
               [get, this](const Plan&) { return amount_text(get().ph_hundredths, {}, 2, 2, editor_.style()); },
               [put](const QString& text) {
                 return put([&](Water& w) -> Result<void> {
                   const auto read = parse_amount(text, {}, 2, 0, most_ph, "water, pH", "0 to 14");
                   if (!read) return tl::unexpected<Error>(read.error());
                   w.ph_hundredths = *read;
                   return {};
                 });
               },
               QStringLiteral("7.20")),
           down);
  form_row(QStringLiteral("notes"),
           own_text(
               QStringLiteral("Notes on the water"), object + QStringLiteral(".notes"),
               [get](const Plan&) { return qt(get().notes); },
               [put](const QString& text) {
                 return put([&](Water& w) { return take_text(w.notes, text, paragraph_length, "water, notes", true); });
               }),
           down);
}

void RegisterSection::vessel_facts(IdOf<Vessel> id, const QString& object, QVBoxLayout* down) {
  const auto get = [this, id] {
    const auto* v = find_record(editor_.registers().vessels, id);
    return v ? *v : Vessel{};
  };
  const auto put = [this, get](const std::function<Result<void>(Vessel&)>& change) -> QString {
    Vessel v = get();
    if (const auto good = change(v); !good) return qt(wording::sentence(good.error()));
    return editor_.put(v);
  };
  const auto text_row = [&](const QString& name, const QString& part, std::string Vessel::*member, std::size_t most) {
    form_row(
        name,
        own_blank(
            name + QStringLiteral(" of the vessel"), object + part,
            [get, member](const Plan&) { return qt(get().*member); },
            [put, member, most, name](const QString& text) {
              return put([&](Vessel& v) { return take_text(v.*member, text, most, "vessel, " + name.toStdString()); });
            }),
        down);
  };
  text_row(QStringLiteral("name"), QStringLiteral(".name"), &Vessel::name, name_length);
  text_row(QStringLiteral("material"), QStringLiteral(".material"), &Vessel::material, sentence_length);
  form_row(QStringLiteral("mass, empty"),
           own_blank(
               QStringLiteral("Mass of the vessel, empty"), object + QStringLiteral(".mass"),
               [get, this](const Plan&) {
                 const auto v = get();
                 return v.mass.count() > 0 ? qt(mass_text(v.mass, editor_.style())) : QString();
               },
               [put](const QString& text) {
                 return put([&](Vessel& v) -> Result<void> {
                   const auto read =
                       text.trimmed().isEmpty() ? Result<Mass>(Mass()) : parse_mass(plain(text), "vessel, mass");
                   if (!read) return tl::unexpected<Error>(read.error());
                   v.mass = *read;
                   return {};
                 });
               },
               QStringLiteral("g")),
           down);
  form_row(QStringLiteral("holds"),
           own_blank(
               QStringLiteral("Volume of the vessel"), object + QStringLiteral(".volume"),
               [get, this](const Plan&) {
                 const auto v = get();
                 return v.volume.count() > 0 ? qt(volume_text(v.volume, editor_.style())) : QString();
               },
               [put](const QString& text) {
                 return put([&](Vessel& v) -> Result<void> {
                   const auto read =
                       parse_amount(text, QStringLiteral("ml"), 3, 0, most_volume, "vessel, volume", "0 to 20000 ml");
                   if (!read) return tl::unexpected<Error>(read.error());
                   v.volume = Volume(read->value_or(0));
                   return {};
                 });
               },
               QStringLiteral("ml")),
           down);
  form_row(
      QStringLiteral("notes"),
      own_text(
          QStringLiteral("Notes on the vessel"), object + QStringLiteral(".notes"),
          [get](const Plan&) { return qt(get().notes); },
          [put](const QString& text) {
            return put([&](Vessel& v) { return take_text(v.notes, text, paragraph_length, "vessel, notes", true); });
          }),
      down);
}

}  // namespace likeleaf::ui
