#include "core/publish/page/marking_words.h"

#include "core/base/words.h"

namespace core::publish {

std::string_view markingName(project::BallMarking marking) noexcept {
    switch (marking) {
        case project::BallMarking::ThreeQuarterDark:
            return toSay("three quarters dark");
        case project::BallMarking::HalfDark:
            return toSay("half dark");
        case project::BallMarking::Band:
            return toSay("a band");
        case project::BallMarking::BandWithDot:
            return toSay("a band with one dot");
        case project::BallMarking::Other:
            return toSay("another marking");
    }
    return {};
}

std::string markingWords(project::BallMarking marking) {
    return saidText(markingName(marking));
}

}  // namespace core::publish
