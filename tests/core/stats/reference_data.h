#pragma once
// Reads tests/reference. Decimal text becomes whole numbers digit by digit: no binary fraction is ever in between.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "core/stats/brew_pairs.h"

namespace likeleaf::stats::reference {

inline std::string path(const std::string& name) {
  return std::string(LIKELEAF_SOURCE_DIR) + "/tests/reference/" + name;
}

inline nlohmann::json json(const std::string& name) {
  std::ifstream in(path(name));
  EXPECT_TRUE(in.good()) << name;
  return nlohmann::json::parse(in);
}

/// Rows by column name; double quotes as in RFC 4180.
inline std::vector<std::map<std::string, std::string>> csv(const std::string& name) {
  std::ifstream in(path(name));
  EXPECT_TRUE(in.good()) << name;
  std::vector<std::string> head;
  std::vector<std::map<std::string, std::string>> rows;
  for (std::string line; std::getline(in, line);) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    if (head.empty()) {
      head = cells;
      continue;
    }
    auto& row = rows.emplace_back();
    for (std::size_t i = 0; i < head.size() && i < cells.size(); ++i) row[head[i]] = cells[i];
  }
  EXPECT_FALSE(rows.empty()) << name;
  return rows;
}

/// "-4.25" in hundredths (places = 2) is -425. More places than asked for are a failure.
inline std::int64_t whole(const std::string& text, int places) {
  std::int64_t value = 0;
  int after = -1;
  for (const char c : text) {
    if (c == '-') continue;
    if (c == '.') {
      after = 0;
      continue;
    }
    value = value * 10 + (c - '0');
    if (after >= 0) ++after;
  }
  EXPECT_LE(after, places) << text;
  for (int i = std::max(after, 0); i < places; ++i) value *= 10;
  return text.front() == '-' ? -value : value;
}

struct BrewPairSet {
  std::vector<TastedPair> tasted;
  std::vector<std::int32_t> lot_of;          // by brew pair
  std::vector<std::string> lots, assessors;  // names by index
  std::int64_t grid = 2;                     // half steps
};

inline BrewPairSet brew_pair_set(const std::string& name) {
  BrewPairSet out;
  std::map<std::string, std::int32_t> lot, pair, assessor;
  const auto rows = csv("brew_pairs/" + name + ".csv");
  for (const auto& r : rows) {
    lot.emplace(r.at("lot"), 0);
    pair.emplace(r.at("brew_pair"), 0);
    assessor.emplace(r.at("assessor"), 0);
  }
  const auto number = [](auto& names, std::vector<std::string>* list) {
    std::int32_t next = 0;
    for (auto& [key, value] : names) {
      value = next++;
      if (list) list->push_back(key);
    }
  };
  number(lot, &out.lots);
  number(pair, nullptr);
  number(assessor, &out.assessors);
  out.lot_of.resize(pair.size());
  for (const auto& r : rows) {
    const std::int64_t tenths = whole(r.at("b"), 1) - whole(r.at("a"), 1);
    EXPECT_EQ(tenths % 5, 0);
    out.tasted.push_back({pair[r.at("brew_pair")], assessor[r.at("assessor")], tenths / 5, r.at("first") == "B", 2});
    out.lot_of[static_cast<std::size_t>(pair[r.at("brew_pair")])] = lot[r.at("lot")];
  }
  return out;
}

/// |seen − expected| ≤ share·|expected| (relative), with an absolute floor for values at 0.
inline ::testing::AssertionResult near(double seen, double expected, double share, double floor = 1e-14) {
  const double off = std::abs(seen - expected);
  if (off <= share * std::abs(expected) + floor) return ::testing::AssertionSuccess();
  return ::testing::AssertionFailure() << "seen " << nlohmann::json(seen).dump() << ", expected "
                                       << nlohmann::json(expected).dump();
}

}  // namespace likeleaf::stats::reference
