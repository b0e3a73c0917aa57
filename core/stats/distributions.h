#pragma once
// The only home of Boost.Math. Every tail is computed as a tail, never as 1 − p, so that small p keep their digits.
// Arguments outside the stated domain throw std::domain_error: callers check first, so that is our own bug.

namespace likeleaf::stats {

double normal_cdf(double z);                               ///< P(Z ≤ z)
double normal_sf(double z);                                ///< P(Z > z)
double normal_quantile(double p);                          ///< z with P(Z ≤ z) = p; 0 < p < 1
double student_t_cdf(double t, double df);                 ///< P(T ≤ t); df > 0; t may be infinite
double student_t_sf(double t, double df);                  ///< P(T > t); df > 0; t may be infinite
double student_t_upper_quantile(double q, double df);      ///< t with P(T > t) = q; 0 < q < 1, df > 0
double f_sf(double f, double df1, double df2);             ///< P(F > f); f ≥ 0 (may be infinite), df1, df2 > 0
double chi2_sf(double x, double df);                       ///< P(χ² > x); x ≥ 0, df > 0
double binomial_upper_tail(int x, int n, double p);        ///< P(X ≥ x); 0 ≤ p ≤ 1, n ≥ 0, any x
double binomial_lower_tail(int x, int n, double p);        ///< P(X ≤ x); likewise
double beta_quantile(double p, double a, double b);        ///< x with P(B ≤ x) = p; 0 ≤ p ≤ 1, a, b > 0
double beta_upper_quantile(double q, double a, double b);  ///< x with P(B > x) = q
double noncentral_t_cdf(double t, double df, double nc);   ///< P(T ≤ t) with noncentrality nc
double noncentral_t_sf(double t, double df, double nc);    ///< P(T > t) with noncentrality nc
/// Density of U = s/σ at u ≥ 0, where s² is a variance estimated on df degrees of freedom (U = χ_df / √df).
double sd_ratio_density(double u, double df);

}  // namespace likeleaf::stats
