#include "core/findings/advice.h"

#include <array>
#include <string>

namespace core::findings {
namespace {

constexpr std::array kAllAdvice{advice::kSetStep,     advice::kLinkImplements, advice::kFixCounts,
                                advice::kNameControl, advice::kEachHitter,     advice::kLookAtShot,
                                advice::kFilmCell,    advice::kFilmBoth,       advice::kFilmThem,
                                advice::kKeepSecond};

void drop(std::string& text) {
    for (const std::string_view each : kAllAdvice) {
        const std::string sentence = saidText(each);
        for (auto at = text.find(sentence); at != std::string::npos; at = text.find(sentence)) {
            text.erase(at, sentence.size());
        }
    }
}

void dropFrom(Comparison& comparison) {
    drop(comparison.sentence);
    drop(comparison.whyNoPairs);
    comparison.outlookSentence.clear();
    for (auto& row : comparison.ranked) {
        drop(row.sentence);
    }
    for (auto& left : comparison.leftOut) {
        drop(left.whyNot);
    }
    for (auto& pair : comparison.pairs) {
        pair.outlook.clear();
        pair.moreShots = {};
    }
}

/// Leaves a sentence only where something can be said.
template <class T>
void dropUnknown(std::string& sentence, const Said<T>& said) {
    if (!said) {
        sentence.clear();
    }
}

void dropFrom(HitterFindings& hitters) {
    if (!hitters.typeTwo && !hitters.typeThree) {
        hitters.sentence.clear();
    }
    drop(hitters.sentence);
    for (auto& cell : hitters.interaction) {
        drop(cell.sentence);
    }
    for (auto& pair : hitters.pairs) {
        dropUnknown(pair.sentence, pair.difference);
    }
}

}  // namespace

void dropAdvice(Findings& findings) {
    for (auto& comparison : findings.comparisons) {
        dropFrom(comparison);
    }
    for (auto& cell : findings.cells) {
        for (auto& odd : cell.oddShots) {
            drop(odd.sentence);
        }
    }
    dropFrom(findings.hitters);
    drop(findings.looksSentence);
    for (auto& sentence : findings.method) {
        drop(sentence);
    }
}

}  // namespace core::findings
