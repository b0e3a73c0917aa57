#include "core/design/open_side.h"

#include <utility>

#include "core/design/sides.h"

namespace likeleaf::design {

namespace {

/// Every pair's sitting, place and table; ids and codes come later.
std::vector<OpenSlot> lay_slots(const OpenShape& shape, const CodePair& blank) {
  std::vector<OpenSlot> slots;
  for (std::size_t s = 0; s < shape.sittings.size(); ++s) {
    const auto& sitting = shape.sittings[s];
    for (std::size_t place = sitting.warm_up ? 0 : 1; place <= sitting.pairs; ++place)
      for (std::size_t table = 0; table < shape.tables.size(); ++table)
        slots.push_back({{}, s, table, static_cast<int>(place), blank});
  }
  return slots;
}

BlindServing serve(const OpenSlot& slot, IdOf<Assessor> assessor, bool one_left, std::size_t of, Entropy& ids) {
  return BlindServing{.id = IdOf<Serving>::make(ids),
                      .assessor = assessor,
                      .pair = slot.pair,
                      .sitting = static_cast<int>(slot.sitting) + 1,
                      .place = slot.place,
                      .of = static_cast<int>(of),
                      .left = one_left ? slot.codes.one : slot.codes.two,
                      .right = one_left ? slot.codes.two : slot.codes.one,
                      .first = Side::left,
                      .instead_of = std::nullopt};
}

}  // namespace

Result<OpenSide> deal_open_side(const OpenShape& shape, Draw& draw, Entropy& ids) {
  const CodePair blank{*BlindCode::from(100), *BlindCode::from(999)};
  OpenSide open;
  open.slots = lay_slots(shape, blank);
  const std::size_t spares = spare_pairs(open.slots.size());
  const auto codes = draw_codes(draw, open.slots.size() + spares);
  if (!codes) return tl::unexpected(codes.error());

  std::vector<std::vector<char>> one_left;
  for (const auto& table : shape.tables) one_left.push_back(part_assessors(draw, table.size()));
  for (std::size_t i = 0; i < open.slots.size(); ++i) {
    auto& slot = open.slots[i];
    slot.codes = (*codes)[i];
    slot.pair = IdOf<Pair>::make(ids);
    const auto& table = shape.tables[slot.table];
    for (std::size_t k = 0; k < table.size(); ++k)
      open.servings.push_back(
          serve(slot, table[k], one_left[slot.table][k] != 0, shape.sittings[slot.sitting].pairs, ids));
  }
  for (std::size_t i = 0; i < spares; ++i)
    open.spares.push_back({IdOf<Pair>::make(ids), (*codes)[open.slots.size() + i]});
  return open;
}

}  // namespace likeleaf::design
