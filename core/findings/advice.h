#pragma once

#include <string_view>

#include "core/base/words.h"
#include "core/findings/findings.h"

namespace core::findings {

/// What sentences tell the tester to do, to be said by saidText(). Each is the end of what is
/// found, word for word, so that dropAdvice() can take it away.
namespace advice {
inline constexpr std::string_view kSetStep =
    toSay(" Set the noticeable step to see which differences a player could notice.");
inline constexpr std::string_view kLinkImplements =
    toSay(" Film one implement again in both, or look at each hitter alone.");
inline constexpr std::string_view kFixCounts = toSay(" Decide the number of shots before filming.");
inline constexpr std::string_view kNameControl = toSay(
    " An implement is a control when the plan says so, or when its condition or one of its "
    "attributes is named \"control\".");
inline constexpr std::string_view kEachHitter =
    toSay(" Look at each hitter alone before you trust the average.");
inline constexpr std::string_view kLookAtShot =
    toSay(" Look at it again; it counts until you decide otherwise.");
inline constexpr std::string_view kFilmCell =
    toSay(" Film this cell again before you trust the average.");
inline constexpr std::string_view kFilmBoth =
    toSay(" Film both again before you trust the average.");
inline constexpr std::string_view kFilmThem =
    toSay(" Film them again before you trust the average.");
inline constexpr std::string_view kKeepSecond = toSay("; keep a second");
}  // namespace advice

/// Takes all of it out of the sentences, and whole sentences on what more filming would settle and
/// on what cannot be said: for readers who cannot film. Numbers stay.
void dropAdvice(Findings& findings);

}  // namespace core::findings
