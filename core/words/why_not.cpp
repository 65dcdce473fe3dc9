#include "core/base/words.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

using Kind = findings::WhyNot::Kind;

std::string whyNoCell(const findings::WhyNot& why, Advice advice) {
    switch (why.kind) {
        case Kind::NoShotByHitter:
            return said("this hitter has no kept shot with it");
        case Kind::NoShotKept:
            return said("no shot has been kept");
        case Kind::OneShotKept:
            return said("one kept shot does not show the scatter") +
                   (advice == Advice::With ? said("; keep a second") : std::string{});
        case Kind::NoCellWithTwoShots:
            return said("no cell has two kept shots, so nothing is known of the scatter");
        case Kind::ReadingsAllAlike:
            return said("its readings do not differ at all, so nothing is known of their scatter");
        case Kind::FewShotsToSplit:
            return said("The scatter cannot be split before two shots are kept.");
        case Kind::ReadingWithoutUncertainty:
            return said("The scatter cannot be split: a reading states no uncertainty of its own.");
        case Kind::FewShotsForOddOnes:
            return said("Odd shots can be recognised once three shots are kept.");
        case Kind::NoHitter:
            return said("No shot is assigned to a hitter yet.");
        case Kind::OneHitter:
            return said(
                "There is one hitter only; a second one would show whether the implements do the "
                "same for both.");
        case Kind::HittersNotComparable:
            return said(
                "{}: hitter {} and hitter {} cannot be compared before both have two kept shots "
                "with it.",
                why.names.at(0), why.names.at(1), why.names.at(2));
        case Kind::FewImplementsByAll:
            return said(
                "Fewer than two implements have two kept shots by every hitter, so averages over "
                "the hitters cannot be compared.");
        default:
            return {};
    }
}

std::string whyNoComparison(const findings::WhyNot& why, Advice advice) {
    switch (why.kind) {
        case Kind::NoBands:
            return said("No bands are set for this project.");
        case Kind::NothingToRankAgainst:
            return said("There is nothing to rank it against yet.");
        case Kind::ImplementsNotLinked:
            return said(
                       "The implements cannot be compared with each other: some share neither "
                       "hitter nor filming day with the rest, not even through others.") +
                   (advice == Advice::With
                        ? said(" Film one implement again in both, or look at each hitter alone.")
                        : std::string{});
        case Kind::FewImplementsForPairs:
            return said(
                "Pairs need two implements with at least two kept shots each by the same hitter.");
        case Kind::OneImplementWithScatter:
            return said("Two implements with two kept shots each are needed for a comparison.");
        case Kind::OneCellWithScatter:
            return said("Two cells with two kept shots each are needed to compare scatters.");
        case Kind::TooCoarseForScatters:
            return said("Some readings are too coarse to compare the scatters of cells.");
        case Kind::AdditivePairsAreTukeys:
            return said("Cells are missing: the additive model's pairs are Tukey's already.");
        case Kind::ScattersDiffer:
            return said(
                "The scatter differs from cell to cell (Brown and Forsythe, {}), so one common "
                "variance would mislead: see the pairs of Games and Howell.",
                pWords(why.pValue));
        case Kind::MeansTooClose:
            return said(
                "The means are so close that no reasonable number of shots would tell them apart.");
        case Kind::FarInTheRanks:
            return said(
                "With so many implements the shots that more filming would take are worked out "
                "for near ranks only.");
        default:
            return {};
    }
}

std::string whyNoTrend(const findings::WhyNot& why) {
    switch (why.kind) {
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
        default:
            return {};
    }
}

}  // namespace

std::string whyNot(const findings::WhyNot& why, Advice advice) {
    if (why.kind == Kind::Failed) {
        return why.message;
    }
    if (why.kind == Kind::NotLookedAt) {
        return said("It was not looked at.");
    }
    for (const std::string& text :
         {whyNoCell(why, advice), whyNoComparison(why, advice), whyNoTrend(why)}) {
        if (!text.empty()) {
            return text;
        }
    }
    return {};
}

}  // namespace core::words
