#include "core/base/words.h"
#include "core/words/findings.h"

namespace core::words {

std::string whyNot(const findings::WhyNot& why, Advice /*advice*/) {
    using Kind = findings::WhyNot::Kind;
    switch (why.kind) {
        case Kind::NotLookedAt:
            return said("It was not looked at.");
        case Kind::Failed:
            return why.message;
        case Kind::FewReadBothWays:
            return saidOf(why.count,
                          "Readings by marks and from the pictures can be compared when three "
                          "shots have both; {} has.",
                          "Readings by marks and from the pictures can be compared when three "
                          "shots have both; {} have.",
                          why.count);
        case Kind::FewReadByTwoReaders:
            return said(
                "How well readers agree can be said when two of them have read the same two "
                "shots.");
        case Kind::NotReadTwiceByEach:
            return said(
                "Repeatability and reproducibility need each of these shots read twice by each "
                "reader.");
        case Kind::DifferentUnits:
            return said("the implements give it in different units");
        case Kind::TooCoarseForDrift:
            return said(
                "The readings are too coarse beside the scatter of the shots. Read the shots from "
                "the pictures or by marks to see a drift.");
        case Kind::FewShotsInAThird:
            return said(
                "two kept shots in each third of the filming day are needed to see a drift.");
        case Kind::NoCellOnBothDays:
            return said(
                "no implement was struck by the same hitter in both. Film one again to link them");
        case Kind::ConditionsNotLinked:
            return said(
                "no hitter has two kept shots with each of the two, and no other implement links "
                "them.");
        case Kind::FewBallSpeeds:
            return said(
                "Implements cannot be compared at equal ball speed: fewer than two of them have "
                "three kept readings with a ball speed. A reading from the pictures gives it when "
                "the filming day says how large the ball is.");
    }
    return {};
}

}  // namespace core::words
