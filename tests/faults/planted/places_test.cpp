// What is taken for a place where a fault can be planted, and what is not.
#include "places.h"

#include <gtest/gtest.h>

namespace likeleaf::planted {
namespace {

std::string turned(std::string_view source) {
  std::string out;
  for (const auto& place : places_of("a.cpp", source)) {
    EXPECT_EQ(source.substr(place.at, place.is.size()), place.is);
    std::string text(source);
    out += text.replace(place.at, place.is.size(), place.turned) + "\n";
  }
  return out;
}

TEST(PlantedPlaces, operators_are_turned_about) {
  EXPECT_EQ(turned("a < b;"), "a <= b;\n");
  EXPECT_EQ(turned("a >= b;"), "a > b;\n");
  EXPECT_EQ(turned("a == b;"), "a != b;\n");
  EXPECT_EQ(turned("a && b;"), "a || b;\n");
  EXPECT_EQ(turned("a - b;"), "a + b;\n");
  EXPECT_EQ(turned("a += b;"), "a -= b;\n");
  EXPECT_EQ(turned("f(!b);"), "f(b);\n");
  EXPECT_EQ(turned("f(true);"), "f(false);\n");
  EXPECT_EQ(turned("std::min(a, b);"), "std::max(a, b);\n");
  EXPECT_EQ(turned("std::ranges::any_of(a, b);"), "std::ranges::all_of(a, b);\n");
}

TEST(PlantedPlaces, a_number_beside_an_operator_is_one_more) {
  EXPECT_EQ(turned("a > 1'000;"), "a >= 1'000;\na > (1'000 + 1);\n");
  EXPECT_EQ(turned("1e-9 < a;"), "(1e-9 + 1) < a;\n1e-9 <= a;\n");
  EXPECT_EQ(turned("set_spacing(12); int a[3]; a = -1;"), "");
}

TEST(PlantedPlaces, branches_are_turned_about) {
  EXPECT_EQ(turned("if (a) b();"), "if (!(a)) b();\n");
  EXPECT_EQ(turned("if (int i = f(); g(i)) b();"), "if (int i = f(); !(g(i))) b();\n");
  EXPECT_EQ(turned("if (const auto* x = f(a, b)) b();"), "if (const auto* x = f(a, b); !x) b();\n");
  EXPECT_EQ(turned("x = f(a) ? b : c;"), "x = !(f(a)) ? b : c;\n");
  EXPECT_EQ(turned("x = a ? b : c.d(e) ? f : g;"), "x = !(a) ? b : c.d(e) ? f : g;\nx = a ? b : !(c.d(e)) ? f : g;\n");
  EXPECT_EQ(turned("if constexpr (a) b();"), "");
}

TEST(PlantedPlaces, early_exits_are_left_out) {
  EXPECT_EQ(turned("if (a) return f(b, [] { return 1; });"), "if (!(a)) return f(b, [] { return 1; });\nif (a) ;\n");
  EXPECT_EQ(turned("for (;;) continue;"), "for (;;) ;\n");
  EXPECT_EQ(turned("return a;"), "");
}

TEST(PlantedPlaces, what_is_no_operator_is_left_alone) {
  EXPECT_EQ(turned("// a < b\n/* a && b */ f(\"a < b\", 'x', R\"(a + b)\");"), "");
  EXPECT_EQ(turned("#define A (1 + \\\n 2)\n#if A < 1\n"), "");
  EXPECT_EQ(turned("static_assert(a < b && true);"), "");
  EXPECT_EQ(turned("template <typename T, bool B = true> std::vector<T> f(T&& t, int* p, T& u) { p->x; --i; }"), "");
  EXPECT_EQ(turned("bool operator<(A a, B b); auto operator<=>(const A&) const = default;"), "");
  EXPECT_EQ(turned("text = \"a\" + b; text = b + \"a\"; out << b;"), "");
  EXPECT_EQ(turned("max = 1;"), "");
}

TEST(PlantedPlaces, a_seed_draws_the_same_order_again) {
  const auto places = places_of("a.cpp", "a < b;\na > b;\na && b;\na + b;\na - b;\na == b;\na != b;\nf(true);\n");
  ASSERT_EQ(places.size(), 8u);
  EXPECT_EQ(places[2].line, 3);
  const auto lines = [&](std::uint64_t seed) {
    std::vector<int> out;
    for (const auto& place : drawn(places, seed)) out.push_back(place.line);
    return out;
  };
  EXPECT_EQ(lines(7), lines(7));
  EXPECT_NE(lines(7), lines(8));
  auto sorted = lines(7);
  std::sort(sorted.begin(), sorted.end());
  EXPECT_EQ(sorted, (std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8}));
}

}  // namespace
}  // namespace likeleaf::planted
