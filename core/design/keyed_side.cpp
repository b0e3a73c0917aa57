#include "core/design/keyed_side.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "core/design/order.h"
#include "core/design/sides.h"

namespace likeleaf::design {

namespace {

/// What one pair of a sitting is; the same for every owner of brews.
struct Content {
  PairKind kind = PairKind::contrast;
  std::size_t lot = 0;       ///< index into the plan's lots; contrasts only
  std::size_t set = 0;       ///< 0-based brew set of that lot and owner; contrasts only
  std::size_t contrast = 0;  ///< contrasts only
  std::size_t control = 0;   ///< index into the plan's controls; controls only
  std::size_t twin = 0;      ///< index of the repeated content of the same sitting; repeats only
};

/// Contents of each sitting, before they are put in order.
using Sittings = std::vector<std::vector<Content>>;

std::vector<std::size_t> sittings_of_sets(const std::vector<SittingShape>& shapes, std::size_t pairs_a_set) {
  std::vector<std::size_t> sittings;
  for (std::size_t s = 0; s < shapes.size(); ++s)
    sittings.insert(sittings.end(), static_cast<std::size_t>(shapes[s].contrast_pairs) / pairs_a_set, s);
  return sittings;
}

std::vector<Wish> wishes_of_repeats(const Plan& plan) {
  std::vector<Wish> wishes;
  for (const auto& control : plan.controls) {
    if (control.kind != ControlKind::repeat) continue;
    const auto lot = std::find(plan.lots.begin(), plan.lots.end(), control.lot) - plan.lots.begin();
    wishes.push_back({static_cast<std::size_t>(control.sitting - 1), static_cast<std::size_t>(lot)});
  }
  return wishes;
}

Sittings lay_contrasts(const Plan& plan, const std::vector<SittingShape>& shapes, std::size_t pairs_a_set, Draw& draw) {
  const auto sitting_of_set = sittings_of_sets(shapes, pairs_a_set);
  const auto lot_of_set = spread_lots(draw, plan.lots.size(), sitting_of_set, wishes_of_repeats(plan));
  std::vector<std::size_t> sets_so_far(plan.lots.size());
  Sittings sittings(shapes.size());
  for (std::size_t i = 0; i < lot_of_set.size(); ++i) {
    const std::size_t lot = lot_of_set[i];
    const std::size_t set = sets_so_far[lot]++;
    for (std::size_t contrast = 0; contrast < pairs_a_set; ++contrast)
      sittings[sitting_of_set[i]].push_back({.lot = lot, .set = set, .contrast = contrast});
  }
  return sittings;
}

/// A contrast of that lot in the sitting: rather one that is not repeated yet, rather one that shows the control's
/// level.
std::optional<std::size_t> find_twin(const Plan& plan, const std::vector<Content>& contents, const Control& control,
                                     Draw& draw) {
  const auto pairs = contrasts(plan.lever);
  std::optional<std::size_t> best;
  int best_rank = -1;
  for (const auto i : random_order(draw, contents.size())) {
    const Content& content = contents[i];
    if (content.kind != PairKind::contrast || plan.lots[content.lot] != control.lot) continue;
    const bool taken = std::any_of(contents.begin(), contents.end(),
                                   [i](const Content& c) { return c.kind == PairKind::repeat && c.twin == i; });
    const Contrast& levels = pairs[content.contrast];
    const int rank = (taken ? 0 : 2) + (levels.a == control.level || levels.b == control.level ? 1 : 0);
    if (rank <= best_rank) continue;
    best = i;
    best_rank = rank;
  }
  return best;
}

PairKind pair_kind(ControlKind kind) {
  switch (kind) {
    case ControlKind::blank:
      return PairKind::blank;
    case ControlKind::yardstick:
      return PairKind::yardstick;
    case ControlKind::repeat:
      return PairKind::repeat;
  }
  return PairKind::blank;
}

Result<Sittings> lay_sittings(const Plan& plan, const std::vector<SittingShape>& shapes, std::size_t pairs_a_set,
                              Draw& draw) {
  Sittings sittings = lay_contrasts(plan, shapes, pairs_a_set, draw);
  for (std::size_t i = 0; i < plan.controls.size(); ++i) {
    const Control& control = plan.controls[i];
    auto& contents = sittings[static_cast<std::size_t>(control.sitting - 1)];
    Content content{.kind = pair_kind(control.kind), .control = i};
    if (control.kind == ControlKind::repeat) {
      const auto twin = find_twin(plan, contents, control, draw);
      if (!twin)
        return fail(ErrorKind::bad_value, "repeat serving", "sitting " + std::to_string(control.sitting),
                    "a leaf that has a brew pair in that sitting");
      content.twin = *twin;
    }
    contents.push_back(content);
  }
  return sittings;
}

/// Deals the pairs of the key one after the other, in the order of brewing.
class KeyedDeal {
 public:
  KeyedDeal(const Plan& plan, const std::vector<SittingShape>& shapes, const OpenSide& open, std::size_t owners,
            Draw& draw, Entropy& ids)
      : plan_(plan),
        open_(open),
        owners_(owners),
        draw_(draw),
        ids_(ids),
        contrasts_(contrasts(plan.lever)),
        sets_(static_cast<std::size_t>(plan.brew_pairs)),
        side_(draw, owners, plan.lots.size(), contrasts_.size(), sets_),
        pour_(draw, owners, plan.lots.size(), contrasts_.size(), sets_),
        control_side_(draw, owners, 1, 1, plan.controls.size()),
        warm_up_side_(draw, owners, 1, 1, shapes.size()),
        warm_up_pour_(draw, owners, 1, 1, shapes.size()) {}

  Key run(const Sittings& sittings) {
    auto slot = open_.slots.begin();
    for (std::size_t s = 0; s < sittings.size(); ++s) {
      const auto orders = pair_orders(draw_, sittings[s].size(), owners_);
      pair_of_content_.assign(owners_, std::vector<std::size_t>(sittings[s].size()));
      for (; slot != open_.slots.end() && slot->sitting == s; ++slot) {
        if (slot->place == 0) {
          warm_up(*slot);
          continue;
        }
        const std::size_t index = orders[slot->table][static_cast<std::size_t>(slot->place - 1)];
        pair_of_content_[slot->table][index] = key_.pairs.size();
        content(*slot, sittings[s][index]);
      }
      join_repeats(sittings[s]);
    }
    draw_portions();
    for (const auto& spare : open_.spares)
      key_.spares.push_back(
          {spare.pair, spare.codes.one, spare.codes.two, IdOf<Brew>::make(ids_), IdOf<Brew>::make(ids_)});
    return std::move(key_);
  }

 private:
  /// A pair of the slot's whose first code is level b's, or its second.
  static KeyPair pair_at(const OpenSlot& slot, PairKind kind, IdOf<Lot> lot, bool one_is_b) {
    return KeyPair{.id = slot.pair,
                   .kind = kind,
                   .lot = lot,
                   .set = 0,
                   .level_a = 0,
                   .level_b = 0,
                   .sitting = static_cast<int>(slot.sitting) + 1,
                   .code_a = one_is_b ? slot.codes.two : slot.codes.one,
                   .code_b = one_is_b ? slot.codes.one : slot.codes.two,
                   .cup_a = {},
                   .cup_b = {},
                   .repeat_of = std::nullopt};
  }

  IdOf<Brew> brew(const OpenSlot& slot, IdOf<Lot> lot, std::size_t level, int set) {
    key_.brews.push_back({.id = IdOf<Brew>::make(ids_),
                          .number = static_cast<int>(key_.brews.size()) + 1,
                          .lot = lot,
                          .level = level,
                          .set = set,
                          .sitting = static_cast<int>(slot.sitting) + 1,
                          .portion = 0});
    return key_.brews.back().id;
  }

  void warm_up(const OpenSlot& slot) {
    KeyPair pair =
        pair_at(slot, PairKind::warm_up, plan_.warm_up_lot, warm_up_side_.at(slot.table, 0, 0, slot.sitting));
    // Both brews the present way: a warm-up that showed the contrast would teach which cup is which.
    pair.level_a = pair.level_b = plan_.lever.reference();
    const bool b_first = warm_up_pour_.at(slot.table, 0, 0, slot.sitting);
    if (b_first) pair.cup_b.brew = brew(slot, pair.lot, pair.level_b, 0);
    pair.cup_a.brew = brew(slot, pair.lot, pair.level_a, 0);
    if (!b_first) pair.cup_b.brew = brew(slot, pair.lot, pair.level_b, 0);
    key_.pairs.push_back(pair);
  }

  void content(const OpenSlot& slot, const Content& content) {
    if (content.kind == PairKind::contrast)
      contrast(slot, content);
    else
      control(slot, content);
  }

  void contrast(const OpenSlot& slot, const Content& content) {
    const bool one_is_b = side_.at(slot.table, content.lot, content.contrast, content.set);
    KeyPair pair = pair_at(slot, PairKind::contrast, plan_.lots[content.lot], one_is_b);
    const auto& brews = brews_of_set(slot, content);
    pair.set = set_number(slot, content);
    pair.level_a = contrasts_[content.contrast].a;
    pair.level_b = contrasts_[content.contrast].b;
    pair.cup_a.brew = brews[pair.level_a];
    pair.cup_b.brew = brews[pair.level_b];
    key_.pairs.push_back(pair);
  }

  [[nodiscard]] int set_number(const OpenSlot& slot, const Content& content) const {
    return static_cast<int>(content.set * owners_ + slot.table) + 1;
  }

  /// All levels of a set are brewed side by side, when the first of its pairs comes.
  const std::vector<IdOf<Brew>>& brews_of_set(const OpenSlot& slot, const Content& content) {
    const int set = set_number(slot, content);
    auto& brews = brews_of_set_[{content.lot, set}];
    if (!brews.empty()) return brews;
    brews.resize(plan_.lever.levels.size());
    for (const auto level : pour_order(slot.table, content))
      brews[level] = brew(slot, plan_.lots[content.lot], level, set);
    return brews;
  }

  /// The reference with the other levels before or after it, as the even table of pours says for each contrast.
  std::vector<std::size_t> pour_order(std::size_t owner, const Content& content) {
    const std::size_t reference = plan_.lever.reference();
    std::vector<std::size_t> before, after;
    for (std::size_t i = 0; i < contrasts_.size(); ++i) {
      const bool b_first = pour_.at(owner, content.lot, i, content.set);
      const bool reference_is_b = contrasts_[i].b == reference;
      const std::size_t level = reference_is_b ? contrasts_[i].a : contrasts_[i].b;
      (b_first != reference_is_b ? before : after).push_back(level);
    }
    draw_.shuffle(before);
    draw_.shuffle(after);
    before.push_back(reference);
    before.insert(before.end(), after.begin(), after.end());
    return before;
  }

  void control(const OpenSlot& slot, const Content& content) {
    const Control& control = plan_.controls[content.control];
    KeyPair pair = pair_at(slot, content.kind, control.lot, control_side_.at(slot.table, 0, 0, content.control));
    pair.level_a = pair.level_b = control.level;
    if (content.kind != PairKind::repeat) {
      pair.cup_a.brew = brew(slot, control.lot, control.level, 0);
      const IdOf<Brew> second = brew(slot, control.lot, control.level, 0);
      // A yardstick's two brews are pooled: one liquor, known by its first brew, in one cup with water added.
      pair.cup_b.brew = content.kind == PairKind::yardstick ? pair.cup_a.brew : second;
      if (content.kind == PairKind::yardstick) pair.cup_b.dilution = control.dilution;
    }
    key_.pairs.push_back(pair);
  }

  /// A repeat is its twin under new codes; as all pairs part the assessors alike, giving level b the other of the two
  /// codes swaps the sides for every assessor.
  void join_repeats(const std::vector<Content>& contents) {
    for (std::size_t i = 0; i < contents.size(); ++i) {
      if (contents[i].kind != PairKind::repeat) continue;
      for (const auto& pairs : pair_of_content_) {
        KeyPair& repeat = key_.pairs[pairs[i]];
        const KeyPair& twin = key_.pairs[pairs[contents[i].twin]];
        if (first_code_is_b(repeat) == first_code_is_b(twin)) std::swap(repeat.code_a, repeat.code_b);
        repeat.level_a = twin.level_a;
        repeat.level_b = twin.level_b;
        repeat.cup_a = twin.cup_a;
        repeat.cup_b = twin.cup_b;
        repeat.repeat_of = twin.id;
      }
    }
  }

  [[nodiscard]] bool first_code_is_b(const KeyPair& pair) const {
    const auto slot =
        std::find_if(open_.slots.begin(), open_.slots.end(), [&pair](const OpenSlot& s) { return s.pair == pair.id; });
    return slot->codes.one == pair.code_b;
  }

  /// Portions of a lot are numbered before anyone knows which brew they are for; the draw tells them apart.
  void draw_portions() {
    std::map<IdOf<Lot>, std::vector<std::size_t>> brews_of_lot;
    std::vector<IdOf<Lot>> lots;
    for (std::size_t i = 0; i < key_.brews.size(); ++i) {
      auto& brews = brews_of_lot[key_.brews[i].lot];
      if (brews.empty()) lots.push_back(key_.brews[i].lot);
      brews.push_back(i);
    }
    for (const auto& lot : lots) {
      const auto& brews = brews_of_lot[lot];
      const auto order = random_order(draw_, brews.size());
      for (std::size_t i = 0; i < brews.size(); ++i) key_.brews[brews[i]].portion = static_cast<int>(order[i]) + 1;
    }
  }

  const Plan& plan_;
  const OpenSide& open_;
  std::size_t owners_;
  Draw& draw_;
  Entropy& ids_;
  std::vector<Contrast> contrasts_;
  std::size_t sets_;
  EvenTable side_, pour_, control_side_, warm_up_side_, warm_up_pour_;
  std::vector<std::vector<std::size_t>> pair_of_content_;  ///< of the sitting being dealt: owner, content → key pair
  std::map<std::pair<std::size_t, int>, std::vector<IdOf<Brew>>> brews_of_set_;
  Key key_;
};

}  // namespace

Result<Key> deal_keyed_side(const Plan& plan, const std::vector<SittingShape>& shapes, const OpenSide& open,
                            std::size_t owners, Draw& draw, Entropy& ids) {
  auto sittings = lay_sittings(plan, shapes, contrasts(plan.lever).size(), draw);
  if (!sittings) return tl::unexpected(sittings.error());
  return KeyedDeal(plan, shapes, open, owners, draw, ids).run(*sittings);
}

}  // namespace likeleaf::design
