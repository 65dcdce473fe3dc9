#include "core/publish/page/marking_words.h"

namespace core::publish {

std::string markingWords(project::BallMarking marking) {
    switch (marking) {
        case project::BallMarking::ThreeQuarterDark:
            return "three quarters dark";
        case project::BallMarking::HalfDark:
            return "half dark";
        case project::BallMarking::Band:
            return "a band";
        case project::BallMarking::BandWithDot:
            return "a band with one dot";
        case project::BallMarking::Other:
            return "another marking";
    }
    return {};
}

}  // namespace core::publish
