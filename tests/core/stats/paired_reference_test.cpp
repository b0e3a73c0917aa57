// Source: tests/reference/paired.json (scripts/paired.py, confirmed by R): every set and every field that applies.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/stats/binomial.h"
#include "core/stats/describe.h"
#include "core/stats/equivalence.h"
#include "core/stats/hodges_lehmann.h"
#include "core/stats/holm.h"
#include "core/stats/sign_flip.h"
#include "core/stats/signed_rank.h"
#include "core/stats/t_engine.h"
#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

struct PairedSet {
  std::vector<std::int64_t> d;  // in 1/grid
  std::int64_t grid = 100;
  std::vector<double> raw;  // as doubles, for logs before they are put on the grid
  bool log = false;
};

PairedSet read(const std::string& name) {
  PairedSet out;
  out.log = name.starts_with("seconds");
  out.grid = out.log ? 1'000'000'000 : 100;
  for (const auto& r : reference::csv("paired/" + name + ".csv")) {
    const std::int64_t a = reference::whole(r.at("a"), 2), b = reference::whole(r.at("b"), 2);
    out.raw.push_back(out.log ? std::log(static_cast<double>(b) / static_cast<double>(a))
                              : static_cast<double>(b - a) / 100);
    out.d.push_back(out.log ? std::llround(1e9 * out.raw.back()) : b - a);
  }
  return out;
}

class PairedReference : public ::testing::TestWithParam<std::string> {
 protected:
  PairedSet set = read(GetParam());
  nlohmann::json expected = reference::json("paired.json").at("sets").at(GetParam());
  // On the grid of 1e-9 of a log unit a mean differs from that of the doubles by at most half a step.
  double share = set.log ? 1e-8 : 1e-10;
  double floor = set.log ? 1e-9 : 1e-14;
};

TEST_P(PairedReference, Description) {
  const auto grid = describe(set.d, set.grid), raw = describe(set.raw);
  ASSERT_TRUE(grid && raw);
  EXPECT_EQ(grid->n, expected["n"]);
  EXPECT_TRUE(near(grid->mean, expected["mean"], share, floor));
  EXPECT_TRUE(near(grid->median, expected["median"], share, floor));
  EXPECT_TRUE(near(raw->mean, expected["mean"], 1e-12));
  EXPECT_TRUE(near(raw->median, expected["median"], 1e-12));
  EXPECT_EQ(std::ranges::count_if(set.d, [](auto v) { return v > 0; }), expected["positive"]);
  EXPECT_EQ(std::ranges::count_if(set.d, [](auto v) { return v < 0; }), expected["negative"]);
  EXPECT_EQ(std::ranges::count(set.d, 0), expected["zero"]);
  ASSERT_EQ(grid->sd.has_value(), expected.contains("sd"));
  if (!grid->sd) return;
  EXPECT_TRUE(near(*grid->sd, expected["sd"], share, floor));
  EXPECT_TRUE(near(*raw->sd, expected["sd"], 1e-12));
  EXPECT_TRUE(near(grid->lower_quartile, expected["quartiles_type7"][0], share, floor));
  EXPECT_TRUE(near(grid->upper_quartile, expected["quartiles_type7"][1], share, floor));
  EXPECT_TRUE(near(raw->lower_quartile, expected["quartiles_type7"][0], 1e-12));
}

TEST_P(PairedReference, T) {
  const auto values = plain(set.d, set.grid);
  ASSERT_TRUE(values);
  const auto fit = t_fit(*values);
  ASSERT_TRUE(fit);
  ASSERT_EQ(fit->state == TState::fitted, expected.contains("t"));
  if (fit->state != TState::fitted) {
    EXPECT_EQ(fit->state, set.d.size() < 2 ? TState::too_few : TState::no_spread);
    return;
  }
  EXPECT_TRUE(near(fit->se, expected["se"], share, floor));
  EXPECT_EQ(fit->df, expected["df"]);
  EXPECT_TRUE(near(fit->t, expected["t"], share, 10 * floor));
  EXPECT_TRUE(near(fit->p, expected["t_p"], 10 * share, floor));
  for (const auto& [key, alpha] : {std::pair{"t_interval_95", 0.05}, std::pair{"t_interval_90", 0.10}}) {
    const auto interval = t_interval(*fit, alpha);
    ASSERT_TRUE(interval);
    // 2e-9: the reference's t quantile (SciPy) is good to 4e-10 only; ours is held to 40-digit values elsewhere.
    EXPECT_TRUE(near(interval->lower, expected[key][0], std::max(share, 2e-9), 2e-9));
    EXPECT_TRUE(near(interval->upper, expected[key][1], std::max(share, 2e-9), 2e-9));
  }
  for (const auto& [margin, e] : expected["tost"].items()) {
    const auto seen = t_equivalence(*fit, static_cast<double>(reference::whole(margin, 1)) / 10);
    ASSERT_TRUE(seen);
    EXPECT_TRUE(near(seen->p_lower, e["p_lower"], 10 * share, floor)) << "margin " << margin;
    EXPECT_TRUE(near(seen->p_upper, e["p_upper"], 10 * share, floor)) << "margin " << margin;
    EXPECT_TRUE(near(seen->p, e["p"], 10 * share, floor)) << "margin " << margin;
  }
}

TEST_P(PairedReference, SignFlip) {
  const auto seen = sign_flip(set.d, 1);
  ASSERT_TRUE(seen);
  const auto& e = expected["sign_flip"];
  EXPECT_EQ(seen->method, set.d.size() > 62 ? FlipMethod::exact_shares : FlipMethod::exact_counts);
  EXPECT_TRUE(near(seen->two_sided.p, e["p"], 1e-12));
  EXPECT_TRUE(near(seen->greater.p, e["p_greater"], 1e-12));
  EXPECT_TRUE(near(seen->less.p, e["p_less"], 1e-12));
  if (e.contains("p_exact") && !e["p_exact"].is_null()) {
    EXPECT_EQ(seen->two_sided.exact->text(), e["p_exact"]);
  }
}

TEST_P(PairedReference, SignedRank) {
  for (const auto& [key, zeros] :
       {std::pair{"wilcoxon_pratt", Zeros::pratt}, std::pair{"wilcoxon_dropped", Zeros::dropped}}) {
    const auto seen = signed_rank(set.d, zeros, 1);
    ASSERT_TRUE(seen);
    const auto& e = expected[key];
    ASSERT_EQ(seen->has_value(), !e.is_null()) << key;
    if (!*seen) continue;
    EXPECT_EQ(static_cast<double>((*seen)->v_plus2) / 2, e["v_plus"]) << key;
    EXPECT_TRUE(near((*seen)->two_sided.p, e["p"], 1e-12)) << key;
    EXPECT_TRUE(near((*seen)->greater.p, e["p_greater"], 1e-12)) << key;
    EXPECT_TRUE(near((*seen)->less.p, e["p_less"], 1e-12)) << key;
  }
}

TEST_P(PairedReference, HodgesLehmann) {
  const auto seen = hodges_lehmann(set.d, set.grid, 0.05);
  ASSERT_TRUE(seen);
  EXPECT_TRUE(near(seen->estimate, expected["hodges_lehmann"], share, floor));
  const auto& e = expected["hodges_lehmann_interval_95"];
  ASSERT_EQ(seen->interval.has_value(), !e.is_null());
  if (!seen->interval) return;
  EXPECT_TRUE(near(seen->interval->lower, e["lower"], share, floor));
  EXPECT_TRUE(near(seen->interval->upper, e["upper"], share, floor));
  EXPECT_TRUE(near(seen->interval->achieved, e["achieved"], 1e-12));
}

TEST_P(PairedReference, SignTestAndClopperPearson) {
  const auto seen = sign_test(expected["positive"], expected["negative"]);
  ASSERT_EQ(seen.has_value(), expected.contains("sign_test_p"));
  if (seen) {
    EXPECT_TRUE(near(*seen, expected["sign_test_p"], 1e-12));
  }
  const auto& e = expected["share_positive"];
  const auto share_of = clopper_pearson(e["x"], e["n"], 0.05);
  ASSERT_TRUE(share_of);
  EXPECT_TRUE(near(share_of->lower, e["clopper_pearson_95"][0], 1e-10));
  EXPECT_TRUE(near(share_of->upper, e["clopper_pearson_95"][1], 1e-10));
}

std::vector<std::string> names() {
  std::vector<std::string> out;
  const auto all = reference::json("paired.json");
  for (const auto& [name, value] : all.at("sets").items()) out.push_back(name);
  return out;
}
INSTANTIATE_TEST_SUITE_P(AllSets, PairedReference, ::testing::ValuesIn(names()),
                         [](const auto& test) { return test.param; });

TEST(PairedReferenceList, AllSetsAreThere) {
  EXPECT_EQ(names().size(), 27u);
}

// Fisher 1935, The Design of Experiments, ch. 3: of 32 768 sign patterns 1 726 have a total at least as large.
TEST(Published, FisherOnDarwinsMaize) {
  const auto seen = sign_flip(read("darwin_maize_eighths").d, 1);
  ASSERT_TRUE(seen);
  EXPECT_EQ(*seen->two_sided.exact, fraction(1726, 32768));
  EXPECT_EQ(*seen->greater.exact, fraction(863, 32768));
}

// Source: paired.json "holm", 14 t p-values; k = 14.
TEST(HolmReference, AdjustedOverAList) {
  const auto expected = reference::json("paired.json").at("holm");
  const auto p = expected["p"].get<std::vector<double>>();
  const auto seen = holm(p, 0.05);
  ASSERT_TRUE(seen);
  for (std::size_t i = 0; i < p.size(); ++i) {
    EXPECT_TRUE(near((*seen)[i].adjusted, expected["adjusted"][i], 1e-12));
    EXPECT_EQ((*seen)[i].passed, expected["adjusted"][i].get<double>() <= 0.05);
  }
}

}  // namespace
}  // namespace likeleaf::stats
