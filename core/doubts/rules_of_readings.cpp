#include "core/doubts/rules_of_readings.h"

#include <algorithm>
#include <cmath>

#include "core/project/clock_refutation.h"

namespace core::doubts {
namespace {

using project::Reading;
using project::ReadingMethod;
using Kind = spin::MarksWarning::Kind;

// A second determination that is off by more than this many standard uncertainties is wrong, or one
// of the two uncertainties is.
constexpr double kGraveSigmas = 4.0;
constexpr double kSixth = 1.0 / 6.0;
// A fit whose next minimum is nearer than this came close to being refused.
constexpr double kNearUniqueness = 4.0;

Measured<Rpm> withoutClock(const Reading& reading) {
    const double clock = reading.rate.value.rpm * reading.clockRelativeSigma;
    const double rest = reading.rate.sigma.rpm * reading.rate.sigma.rpm - clock * clock;
    return {reading.rate.value, {std::sqrt(std::max(rest, 0.0))}};
}

/// One kept reading with all that is known of its shot.
class ReadingRules {
public:
    ReadingRules(const DoubtMaterial& material, const project::Shot& shot, const Reading& reading)
        : m_material{material},
          m_shot{shot},
          m_reading{reading},
          m_clip{material.snapshot->clips.find(shot.clip)} {
        if (const auto at = material.facts.find(reading.id); at != material.facts.end()) {
            m_facts = at->second.get();
        }
        if (const auto at = material.opinions.find(shot.id); at != material.opinions.end()) {
            m_opinion = at->second.get();
        }
    }

    std::vector<Doubt> doubts(const project::ReadingsByShot& readings) {
        judgeClock();
        judgeUncheckedClock();
        judgeAgainstPictures();
        judgeAgainstOthers(readings);
        if (m_facts != nullptr) {
            judgeHoles();
            judgeWarnings();
            judgeUniqueness();
        }
        return std::move(m_doubts);
    }

private:
    void add(Reason reason, Grade grade, double strength, Facts facts = {}) {
        m_doubts.push_back({reason, grade, strength, std::move(facts)});
    }

    void judgeClock() {
        judgeRefutedClock();
        if (m_facts != nullptr && m_facts->clock && m_clip != nullptr &&
            m_clip->clock != m_facts->clock) {
            add(Reason::ClockChanged, Grade::Grave, 2.0, ClockSinceReading{!m_clip->clock});
        }
    }

    void judgeRefutedClock() {
        const auto noted =
            m_clip != nullptr ? project::refutationOf(*m_material.snapshot, *m_clip) : std::nullopt;
        const bool isSeen = m_opinion != nullptr && !m_opinion->clockRefuted.empty();
        if (noted && !noted->overruled.empty()) {
            add(Reason::ClockRefuted, Grade::Note, 3.0,
                FlightAgainstClock{noted->statement, noted->overruled, true});
        } else if (noted || isSeen) {
            add(Reason::ClockRefuted, Grade::Grave, 3.0,
                FlightAgainstClock{
                    isSeen ? m_opinion->clockRefuted : noted->statement, {}, noted.has_value()});
        }
    }

    /// Without the ball's diameter nothing but a clock check would show a wrong capture rate.
    void judgeUncheckedClock() {
        const auto* session =
            m_clip != nullptr ? m_material.snapshot->sessions.find(m_clip->session) : nullptr;
        if (session == nullptr || session->ballDiameterMm || isTally(*m_clip)) {
            return;
        }
        const auto& evidence = m_clip->evidence;
        if (std::none_of(evidence.begin(), evidence.end(), [](const auto& one) {
                return std::holds_alternative<timebase::ClockCheck>(one);
            })) {
            add(Reason::ClockUnchecked, Grade::Question, 0.3);
        }
    }

    void judgeAgainstPictures() {
        if (m_opinion == nullptr || m_reading.method != ReadingMethod::Marks ||
            !m_opinion->clockRefuted.empty()) {
            return;
        }
        if (!m_opinion->rate) {
            const double relative = m_reading.rate.sigma.rpm / m_reading.rate.value.rpm;
            add(Reason::NotConfirmed, Grade::Question, 10.0 * relative,
                SilentPictures{m_opinion->reason});
            return;
        }
        const Compared both = compared(withoutClock(m_reading), m_reading.interval95,
                                       *m_opinion->rate, *m_opinion->interval95);
        if (both.doMeet) {
            return;
        }
        const MarksAgainstPictures rates{m_reading.rate.value, m_opinion->rate->value};
        const int turns = m_facts != nullptr ? m_facts->turns : 0;
        if (const auto off = turnsMiscounted(turns, rates.marks, *m_opinion->rate)) {
            add(Reason::Miscount, Grade::Grave, 1.0 + both.inSigmas(),
                TurnsOff{rates, turns, *off, m_facts->last});
            return;
        }
        add(Reason::MethodsDiffer, both.inSigmas() > kGraveSigmas ? Grade::Grave : Grade::Question,
            both.inSigmas() / kGraveSigmas, rates);
    }

    void judgeAgainstOthers(const project::ReadingsByShot& readings) {
        const auto own = readings.find(m_shot.id);
        if (own == readings.end()) {
            return;
        }
        const Reading* farthest = nullptr;
        Compared most;
        for (const Reading* other : own->second) {
            const Compared both = compared(withoutClock(m_reading), m_reading.interval95,
                                           withoutClock(*other), other->interval95);
            if (other->id != m_reading.id && !both.doMeet && isRepeat(*other) &&
                (farthest == nullptr || both.inSigmas() > most.inSigmas())) {
                farthest = other;
                most = both;
            }
        }
        if (farthest == nullptr) {
            return;
        }
        add(Reason::ReadingsDiffer, most.inSigmas() > kGraveSigmas ? Grade::Grave : Grade::Question,
            most.inSigmas() / kGraveSigmas,
            RepeatedReading{farthest->rate.value, farthest->reader, m_reading.rate.value});
    }

    /// A reading made with another clock or marking is no repeated one: a changed fact moved it.
    [[nodiscard]] bool isRepeat(const Reading& other) const {
        const auto at = m_material.facts.find(other.id);
        if (m_facts == nullptr || at == m_material.facts.end()) {
            return true;
        }
        const ReadingFacts& facts = *at->second;
        const bool isSameClock = !facts.clock || !m_facts->clock || facts.clock == m_facts->clock;
        return isSameClock && facts.markingSymmetry == m_facts->markingSymmetry;
    }

    void judgeHoles() {
        std::int64_t missing = 0;
        for (const Hole& hole : m_facts->holes) {
            missing += hole.missing;
        }
        if (missing == 0) {
            return;
        }
        const bool isCounted =
            m_facts->clock && m_facts->clock->kind == timebase::ClockKind::Counted;
        add(Reason::FramesDropped, isCounted ? Grade::Grave : Grade::Question,
            static_cast<double>(missing),
            MissingFrames{missing, m_facts->holes.front().after, isCounted});
    }

    void judgeWarnings() {
        for (const auto& warning : m_facts->warnings) {
            switch (warning.kind) {
                case Kind::FewFramesPerTurn:
                    add(Reason::Alias, Grade::Note, 2.0, warning);
                    break;
                case Kind::Stroboscope:
                    if (!m_reading.habit) {  // whole frames say nothing of a count in whole frames
                        add(Reason::Stroboscope, Grade::Note, 0.2, warning);
                    }
                    break;
                case Kind::Blur:
                    add(Reason::Blur, Grade::Note, 1.0, warning);
                    break;
                case Kind::Curvature:
                case Kind::Scatter:
                    add(Reason::Curvature, Grade::Question, 0.5, warning);
                    break;
                case Kind::MethodsDiffer:
                    add(Reason::MethodsDiffer, Grade::Question, 0.5, warning);
                    break;
                case Kind::TurnsInferred:
                case Kind::AssumedNeighbour:
                case Kind::UnknownReadout:  // the interval holds it
                    break;                  // none makes the number doubtful
            }
        }
    }

    void judgeUniqueness() {
        if (m_facts->uniqueness && *m_facts->uniqueness < kNearUniqueness) {
            add(Reason::NotUnique, Grade::Note,
                kNearUniqueness / std::max(*m_facts->uniqueness, 0.1),
                NearRate{*m_facts->uniqueness,
                         m_opinion != nullptr ? m_opinion->nextRate : std::nullopt});
        }
    }

    const DoubtMaterial& m_material;
    const project::Shot& m_shot;
    const Reading& m_reading;
    const project::Clip* m_clip;
    const ReadingFacts* m_facts{};
    const PictureOpinion* m_opinion{};
    std::vector<Doubt> m_doubts;
};

}  // namespace

double Compared::inSigmas() const noexcept {
    return sigma > 0.0 ? std::abs(difference) / sigma : std::abs(difference);
}

Compared compared(Measured<Rpm> first, Interval<Rpm> firstInterval, Measured<Rpm> second,
                  Interval<Rpm> secondInterval) {
    return {second.value.rpm - first.value.rpm, std::hypot(first.sigma.rpm, second.sigma.rpm),
            firstInterval.low <= secondInterval.high && secondInterval.low <= firstInterval.high};
}

std::optional<double> turnsMiscounted(int turns, Rpm marked, Measured<Rpm> pictures) {
    if (turns <= 0 || !(marked.rpm > 0.0)) {
        return std::nullopt;
    }
    const double truly = turns * pictures.value.rpm / marked.rpm;
    const double sigma = turns * pictures.sigma.rpm / marked.rpm;
    const double halves = std::round(2.0 * truly) / 2.0;
    const bool isTold = std::abs(truly - halves) <= kSixth && 2.0 * sigma <= 0.25;
    return isTold && halves > 0.0 && halves != turns ? std::optional{halves - turns} : std::nullopt;
}

std::vector<Doubt> doubtsOfReading(const DoubtMaterial& material,
                                   const project::ReadingsByShot& readings,
                                   const project::Shot& shot) {
    const Reading* counting =
        shot.counting ? material.snapshot->readings.find(*shot.counting) : nullptr;
    return counting != nullptr ? ReadingRules{material, shot, *counting}.doubts(readings)
                               : std::vector<Doubt>{};
}

}  // namespace core::doubts
