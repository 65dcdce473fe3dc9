#include "core/doubts/picture_opinion.h"

namespace core::doubts {

PictureOpinion opinionOf(const reading::PictureReading& reading) {
    PictureOpinion opinion;
    opinion.reason = reading.reason;
    if (reading.isClockRefuted()) {
        opinion.clockRefuted = reading.gravity->statement;
    }
    if (reading.rate) {
        opinion.rate = reading.fit.rate;
        opinion.interval95 = reading.interval95;
    }
    if (reading.flight && !reading.isClockRefuted()) {
        opinion.speedMetresPerSecond = reading.flight->speed.value.metresPerSecond;
    }
    opinion.uniqueness = reading.fit.uniqueness;
    for (const auto& candidate : reading.fit.candidates) {
        if (candidate.kind == spin::fit::CandidateKind::Minimum) {
            opinion.nextRate = candidate.rate;
            break;
        }
    }
    return opinion;
}

}  // namespace core::doubts
