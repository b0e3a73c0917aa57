// Numbers of a plan, each in its own unit.
#include "core/wording/amount_text.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {

Page amounts_page() {
  using namespace wording;
  using Kind = ConstantKind;
  return {
      {"leaf", amount_text(Kind::leaf_dose, 4000, celsius), "4~g"},
      {"water", amount_text(Kind::water_mass, 200'500, celsius_comma), "200,5~g"},
      {"hot water", amount_text(Kind::water_temperature, 88'000, fahrenheit), "190.4~°F"},
      {"tasting", amount_text(Kind::tasting_temperature, 42'000, celsius), "42~°C"},
      {"steep", amount_text(Kind::steep_time, 45'000, celsius), "45~s"},
      {"a step of hot water", difference_text(Kind::water_temperature, 2000, fahrenheit_comma), "3,6~°F"},
      {"a step of tasting", difference_text(Kind::tasting_temperature, 2000, celsius), "2~°C"},
      {"a step of time", difference_text(Kind::steep_time, 3000, celsius), "3~s"},
      {"a tolerance", tolerance_text(Kind::leaf_dose, 50, celsius), "±0.05~g"},
      {"held with a tolerance", held_text(Kind::water_mass, 200'000, 2000, celsius), "200~g ± 2~g"},
      {"held, in °F", held_text(Kind::tasting_temperature, 42'000, 1500, fahrenheit_comma), "107,6~°F ± 2,7~°F"},
      {"held, a tolerance of nothing", held_text(Kind::longest_hold, 600'000, 0, celsius), "10~min"},
      {"held without a tolerance", held_text(Kind::water_mass, 200'000, {}, celsius), "200~g"},
  };
}

}  // namespace likeleaf::book
