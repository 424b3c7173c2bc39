// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/check.h"

#include <gtest/gtest.h>

#include <string>
#include <type_traits>

#include "base/failure.h"

namespace ringfall {
namespace {

TEST(Check, KeptPromiseIsSilent) { EXPECT_NO_THROW(check(true, "kept")); }

TEST(Check, BrokenPromiseSaysWhatAndWhere) {
  const int line = __LINE__ + 2;
  try {
    check(false, "the sky is up");
    FAIL() << "did not throw";
  } catch (const InternalError& error) {
    const std::string text = error.what();
    EXPECT_EQ(text.rfind("internal error: the sky is up (", 0), 0U) << text;
    EXPECT_NE(text.find("check_test.cpp:" + std::to_string(line)), std::string::npos) << text;
  }
}

// Faces catch Failure for the person's problems and InternalError for ours: the two must stay apart.
TEST(Failure, KindsAreFailuresAndInternalErrorIsNot) {
  EXPECT_THROW(throw FileFailure("x"), Failure);
  EXPECT_THROW(throw DeviceFailure("x"), Failure);
  EXPECT_THROW(throw LogbookFailure("x"), Failure);
  EXPECT_THROW(throw RequestFailure("x"), Failure);
  EXPECT_FALSE((std::is_base_of_v<Failure, InternalError>));
}

}  // namespace
}  // namespace ringfall
