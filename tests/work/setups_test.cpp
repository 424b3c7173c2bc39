// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/setups.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "work/two_bows.h"

namespace ringfall::work {
namespace {

TEST(SetUps, AreOfOneBow) {
  const TestFolder folder;
  const auto book = two_bows(folder.path("a"));
  EXPECT_EQ(setup_names(book, "longbow"), (std::vector<std::string>{"bare", "quiet"}));
  EXPECT_FALSE(is_to_be_made(book, "recurve", "damped", NewSetUp::refused));
  EXPECT_THROW(is_to_be_made(book, "longbow", "damped", NewSetUp::refused), RequestFailure) << "the other bow's";
  EXPECT_TRUE(is_to_be_made(book, "longbow", "damped", NewSetUp::when_unlike));
}

TEST(SetUps, ASlipOfThePenIsNotMadeASetUp) {
  const TestFolder folder;
  const auto book = two_bows(folder.path("a"));
  EXPECT_THROW(is_to_be_made(book, "longbow", "quiett", NewSetUp::when_unlike), RequestFailure);
  EXPECT_TRUE(is_to_be_made(book, "longbow", "quiett", NewSetUp::meant));
  EXPECT_TRUE(is_to_be_made(book, "longbow", "rubber", NewSetUp::when_unlike));
  EXPECT_THROW(is_to_be_made(book, "longbow", "rubber", NewSetUp::refused), RequestFailure);
  for (const auto allowed : {NewSetUp::refused, NewSetUp::when_unlike, NewSetUp::meant}) {
    for (const char* twin : {"Bare", "BARE"}) {
      std::string said;
      try {
        is_to_be_made(book, "longbow", twin, allowed);
      } catch (const RequestFailure& refused) {
        said = refused.what();
      }
      EXPECT_NE(said.find("but 'bare', which differs in capitals only"), std::string::npos) << twin << ": " << said;
    }
  }
}

}  // namespace
}  // namespace ringfall::work
