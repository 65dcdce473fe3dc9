#include "core/publish/page/pair_words.h"

#include "core/base/words.h"

namespace core::publish {

PairWord pairWord(const findings::PairFinding& pair) noexcept {
    if (pair.verdict == stats::StepVerdict::DiffersByAtLeast) {
        return PairWord::AtLeastStep;
    }
    if (pair.verdict == stats::StepVerdict::DiffersByLess) {
        return PairWord::LessThanStep;
    }
    if (pair.verdict == stats::StepVerdict::Equivalent) {
        return PairWord::Equivalent;
    }
    return pair.differs ? PairWord::Differs : PairWord::NotSettled;
}

std::string wordsOf(PairWord word, bool isOne) {
    const int pairs = isOne ? 1 : 2;
    switch (word) {
        case PairWord::AtLeastStep:
            return saidOf(pairs, "differs by at least the noticeable step",
                          "differ by at least the noticeable step");
        case PairWord::LessThanStep:
            return saidOf(pairs, "differs, by less than the noticeable step",
                          "differ, by less than the noticeable step");
        case PairWord::Differs:
            return saidOf(pairs, "differs", "differ");
        case PairWord::Equivalent:
            return saidOf(pairs, "is equivalent (less than the noticeable step apart)",
                          "are equivalent (less than the noticeable step apart)");
        case PairWord::NotSettled:
            return saidOf(pairs, "cannot be told apart with these shots",
                          "cannot be told apart with these shots");
    }
    return {};
}

std::string_view codeOf(PairWord word) noexcept {
    switch (word) {
        case PairWord::AtLeastStep:
            return "differs_by_at_least_step";
        case PairWord::LessThanStep:
            return "differs_by_less_than_step";
        case PairWord::Differs:
            return "differs";
        case PairWord::Equivalent:
            return "equivalent_within_step";
        case PairWord::NotSettled:
            return "not_settled";
    }
    return "";
}

}  // namespace core::publish
