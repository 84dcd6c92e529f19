// A condition as an expression of the Common Expression Language, for whoever wants to judge a pack with other software.
// True is true, False is false, and Unknown is an error: what is not known is missing from the maps, and && and || of that language
// take an error as this engine takes Unknown. rules/LANGUAGE.md says what the maps hold.
#pragma once

#include "core/rules/pack.h"

namespace brimful::rules {

// `root`: start of the condition in Pack::conditions. A k_of over n grows with n over k: meant for the handful that packs have.
[[nodiscard]] std::string asCel(const Pack& pack, Index root);

} // namespace brimful::rules
