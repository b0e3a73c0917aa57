#include "core/domain/brew_course.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/domain/brews.h"

namespace likeleaf {
namespace {

using test::at;
using test::brew_of;
using test::infuse;
using test::stamp;
using test::two_infusions;
using ::testing::ElementsAre;
using Part = CoursePart;
using Kind = StampKind;

TEST(Course, OfABrewThatWasNotPouredIsAllPlanned) {
  const Plan plan = two_infusions();
  Bench bench{plan, {}, {}, 0, 0, true};
  EXPECT_THAT(
      course_of(brew_of(1, 1), bench),
      ElementsAre(CourseSegment{Part::pour, 0, 15'000, true}, CourseSegment{Part::steep, 15'000, 43'500, true},
                  CourseSegment{Part::drain, 43'500, 61'500, true}, CourseSegment{Part::chill, 61'500, 271'500, true}));
  EXPECT_EQ(bench.hands, 91'500) << "a pause after the last drop";
  EXPECT_EQ(course_of(brew_of(2, 1), bench).front().from, 91'500) << "the next brew waits for the hands";
}

TEST(Course, WithoutTheKeyTellsNoLevel) {
  const Plan steeps = test::FerryPier().trial_15();
  Bench a{steeps, {}, {}, 0, 0, false}, b = a, c{steeps, {}, {}, 0, 0, true};
  EXPECT_EQ(course_of(brew_of(1, 0), a), course_of(brew_of(1, 2), b));
  Bench d = c;
  EXPECT_NE(course_of(brew_of(1, 0), c), course_of(brew_of(1, 2), d));
}

TEST(Course, FollowsTheStampsAndPlansTheRest) {
  const Plan plan = two_infusions();
  Brew brew = brew_of(1, 1);
  stamp(brew, Kind::pour_start, 100);
  stamp(brew, Kind::pour_end, 110);
  Bench bench{plan, {}, at(100), 20'000, 20'000, true};
  const auto course = course_of(brew, bench);
  ASSERT_EQ(course.size(), 5U);
  EXPECT_EQ(course[0], (CourseSegment{Part::pour, 0, 10'000, false}));
  EXPECT_EQ(course[1], (CourseSegment{Part::steep, 10'000, 20'000, false})) << "as far as it is";
  EXPECT_EQ(course[2], (CourseSegment{Part::steep, 20'000, 38'500, true})) << "the rest is a plan";
  // Late: it lasts until now, and what comes after moves on.
  bench.now = 60'000;
  const auto late = course_of(brew, bench);
  EXPECT_EQ(late[1], (CourseSegment{Part::steep, 10'000, 60'000, false}));
  EXPECT_EQ(late[2], (CourseSegment{Part::drain, 60'000, 78'000, true}));
}

TEST(Course, HasEachInfusionOneAfterAnother) {
  const Plan plan = two_infusions();
  Brew brew = brew_of(1);
  infuse(brew, 100);
  infuse(brew, 200, 2);
  stamp(brew, Kind::chill_start, 270, 2);
  stamp(brew, Kind::ready, 400, 2);
  Bench bench{plan, {}, at(100), 500'000, 500'000, true};
  const auto course = course_of(brew, bench);
  ASSERT_EQ(course.size(), 7U);
  EXPECT_EQ(course[4], (CourseSegment{Part::steep, 110'000, 140'000, false}));
  EXPECT_EQ(course[6], (CourseSegment{Part::chill, 170'000, 300'000, false}));
}

TEST(FirstPour, IsTheEarliestThatStands) {
  Brew first = brew_of(1), second = brew_of(2);
  EXPECT_FALSE(first_pour({&first, &second}));
  stamp(first, Kind::pour_start, 50);
  stamp(second, Kind::pour_start, 40);
  EXPECT_EQ(first_pour({&first, &second}), at(40));
  second.stamps[0].undone = at(41);
  EXPECT_EQ(first_pour({&first, &second}), at(50));
}

}  // namespace
}  // namespace likeleaf
