// Values from outside: tests/reference/checks.csv (each row names its source) and 18-digit values of the distributions,
// worked out with arbitrary-precision arithmetic (mpmath, 30 digits) from their integrals.
#include <gtest/gtest.h>

#include <cmath>

#include "core/stats/binomial.h"
#include "core/stats/distributions.h"
#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

std::map<std::string, std::string> check(const std::string& id) {
  for (const auto& row : reference::csv("checks.csv"))
    if (row.at("id") == id) return row;
  ADD_FAILURE() << "checks.csv has no row " << id;
  return {};
}
int expected_count(const std::string& id) {
  return static_cast<int>(reference::whole(check(id).at("expected"), 0));
}

// FAO appendix A and ISO 5495:2005 Table A.1, rows A01 to A10: minimum number correct.
TEST(Published, MinimumNumberCorrect) {
  EXPECT_EQ(minimum_number(24, 1.0 / 3, 0.05)->value(), expected_count("A01"));
  EXPECT_EQ(minimum_number(30, 1.0 / 3, 0.05)->value(), expected_count("A02"));
  EXPECT_EQ(minimum_number(36, 1.0 / 3, 0.01)->value(), expected_count("A03"));
  EXPECT_EQ(minimum_number(60, 1.0 / 3, 0.001)->value(), expected_count("A04"));
  EXPECT_EQ(minimum_number(12, 1.0 / 3, 0.1)->value(), expected_count("A05"));
  EXPECT_EQ(check("A06").at("expected"), "none");
  EXPECT_FALSE(minimum_number(6, 1.0 / 3, 0.001)->has_value());
  EXPECT_EQ(minimum_number(30, 0.5, 0.05)->value(), expected_count("A07"));
  EXPECT_EQ(minimum_number(18, 0.5, 0.05)->value(), expected_count("A08"));
  EXPECT_EQ(minimum_number(40, 0.5, 0.01)->value(), expected_count("A09"));
  EXPECT_EQ(minimum_number(100, 0.5, 0.05)->value(), expected_count("A10"));
  EXPECT_EQ(minimum_number(30, 0.5, 0.025)->value(), expected_count("A11"));  // two-sided: alpha/2 on each side
}

TEST(Published, BinomialTails) {
  EXPECT_NEAR(binomial_upper_tail(15, 30, 1.0 / 3), 0.0434823, 1e-6);  // A12
  EXPECT_EQ(check("A12").at("expected"), "0.0434823");
  EXPECT_NEAR(binomial_upper_tail(21, 30, 0.5), 0.021387, 1e-6);  // A13
  EXPECT_EQ(check("A13").at("expected"), "0.021387");
}

// Clopper and Pearson 1934, row A18.
TEST(Published, ClopperPearson) {
  EXPECT_EQ(check("A18").at("expected"), "lo=0.312970; hi=0.687030");
  const auto seen = clopper_pearson(15, 30, 0.05);
  ASSERT_TRUE(seen);
  EXPECT_NEAR(seen->lower, 0.312970, 1e-5);
  EXPECT_NEAR(seen->upper, 0.687030, 1e-5);
}

// McNemar's exact test of 0 against 7 discordant pairs, row A35.
TEST(Published, McNemarIsTheSignTest) {
  EXPECT_EQ(check("A35").at("expected"), "0.015625");
  EXPECT_NEAR(*sign_test(0, 7), 0.015625, 1e-9);
}

TEST(Distributions, StudentQuantiles) {
  const struct {
    double df, at_025, at_1_120;
  } rows[] = {{1, 12.7062047361747046, 38.1884592970256091}, {2, 4.30265272974946385, 7.64880393791553981},
              {3, 3.18244630528370959, 4.85665727276897645}, {5, 2.57058183563631551, 3.5341107040583668},
              {8, 2.30600413520416668, 3.01576183688716633}, {30, 2.04227245630123831, 2.53574160543528657}};
  for (const auto& r : rows) {
    EXPECT_TRUE(near(student_t_upper_quantile(0.025, r.df), r.at_025, 1e-13)) << r.df;
    EXPECT_TRUE(near(student_t_upper_quantile(1.0 / 120, r.df), r.at_1_120, 1e-13)) << r.df;
  }
}

TEST(Distributions, TailsKeepTheirDigits) {
  EXPECT_TRUE(near(normal_sf(8), 6.22096057427178412e-16, 1e-12, 0));
  EXPECT_TRUE(near(normal_cdf(-8), 6.22096057427178412e-16, 1e-12, 0));
  EXPECT_TRUE(near(chi2_sf(30, 1), 4.32046305782749729e-8, 1e-12, 0));
  EXPECT_TRUE(near(f_sf(50, 3, 8), 0.0000158434306809678618, 1e-12, 0));
  EXPECT_TRUE(near(student_t_sf(40, 5), 9.20598108588647718e-8, 1e-12, 0));
  EXPECT_TRUE(near(student_t_cdf(-40, 5), 9.20598108588647718e-8, 1e-12, 0));
  EXPECT_TRUE(near(binomial_upper_tail(33, 60, 1.0 / 3), 0.0004511953293377082, 1e-12, 0));
  EXPECT_TRUE(near(noncentral_t_sf(2.5, 9, 2.1), 0.3890195898183755, 1e-11));
  EXPECT_TRUE(near(noncentral_t_sf(2, 39, 3), 0.8384062045003316, 1e-11));
  EXPECT_TRUE(near(noncentral_t_sf(3.18, 3, 0.5), 0.05570824692299394, 1e-11));
  EXPECT_TRUE(near(noncentral_t_cdf(2.5, 9, 2.1), 1 - 0.3890195898183755, 1e-11));
}

TEST(Distributions, EndsOfTheLine) {
  const double inf = std::numeric_limits<double>::infinity();
  EXPECT_EQ(student_t_sf(inf, 3), 0);
  EXPECT_EQ(student_t_sf(-inf, 3), 1);
  EXPECT_EQ(f_sf(inf, 2, 3), 0);
  EXPECT_EQ(f_sf(0, 2, 3), 1);
  EXPECT_EQ(chi2_sf(inf, 1), 0);
  EXPECT_EQ(normal_cdf(-inf), 0);
  EXPECT_EQ(binomial_upper_tail(0, 5, 0.5), 1);
  EXPECT_EQ(binomial_upper_tail(6, 5, 0.5), 0);
  EXPECT_EQ(binomial_lower_tail(-1, 5, 0.5), 0);
  EXPECT_EQ(binomial_lower_tail(5, 5, 0.5), 1);
  EXPECT_EQ(beta_quantile(0, 2, 3), 0);
}

// The density of s/σ integrates to 1 and has mean square 1, for any degrees of freedom.
TEST(Distributions, SdRatioDensity) {
  for (const double df : {1.0, 2.0, 5.0, 40.0, 3000.0}) {
    double mass = 0, square = 0;
    const int steps = 20'000;
    const double h = 12.0 / steps;
    for (int i = 0; i <= steps; ++i) {
      const double u = i * h, weight = i == 0 || i == steps ? 0.5 : 1.0;
      mass += weight * h * sd_ratio_density(u, df);
      square += weight * h * u * u * sd_ratio_density(u, df);
    }
    EXPECT_NEAR(mass, 1, 1e-6) << df;
    EXPECT_NEAR(square, 1, 1e-6) << df;
  }
}

}  // namespace
}  // namespace likeleaf::stats
