#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/plan/ball_marking.h"

/// What is to be filmed on a day, before anybody swings. Plain values; words as in the glossary of
/// resources/guide.
namespace core::plan {

/// What will strike the ball. Two may share a name when their conditions differ.
struct PlannedImplement {
    std::string name;
    std::string condition;                          ///< "new", "worn", or the tester's own word
    std::map<std::string, std::string> attributes;  ///< by column name; absent: not known
    bool operator==(const PlannedImplement&) const = default;
};

/// How the visits are ordered. A visit is one hitter with one implement for a few shots in a row.
enum class OrderKind {
    Random,       ///< every hitter's visits in random order
    Blocked,      ///< implement by implement, the implements in random order
    LatinSquare,  ///< passes through all implements; each as often in every place of a pass
    Williams,     ///< as LatinSquare, and each follows every other equally often
};

/// Stable names for storage: "random", "blocked", "latin_square", "williams".
[[nodiscard]] std::string_view orderKindName(OrderKind kind) noexcept;

/// How the camera will be set, as far as it is known, for the advice.
struct FilmingSetup {
    std::optional<double> captureFps;
    std::optional<double> exposureSeconds;
    std::optional<double> expectedRpm;  ///< spin that the ball is expected to leave with
    bool operator==(const FilmingSetup&) const = default;
};

/// The plan of a filming day. Limits of the numbers: see checkPlan().
struct Plan {
    std::string session;                      ///< what the day is called; may be empty
    std::vector<std::string> attributeNames;  ///< the tester's own columns, in order
    std::vector<PlannedImplement> implements;
    std::vector<std::string> hitters;
    int shotsPerCell{10};  ///< ten is common practice, no source
    int shotsPerVisit{5};  ///< in a row, before the implement changes; not for a blocked order
    OrderKind order{OrderKind::Williams};
    std::uint64_t seed{1};
    std::optional<std::size_t> control;  ///< implement that is repeated at start, middle and end
    int controlShots{3};                 ///< of every hitter, each time
    int swingsBetweenRests{20};          ///< of one hitter; common practice, no source
    int restMinutes{5};
    std::string ball;  ///< make, age, pressure: as the tester describes it
    BallMarking marking{BallMarking::ThreeQuarterDark};
    std::optional<double> assumedScatterRpm;  ///< standard deviation of single shots
    FilmingSetup filming;
    bool operator==(const Plan&) const = default;

    [[nodiscard]] bool isEmpty() const noexcept { return implements.empty() && hitters.empty(); }
};

inline constexpr int kMaxImplements = 200;
inline constexpr int kMaxHitters = 50;
inline constexpr int kMaxShotsPerCell = 1000;
/// Shots of one filming day, control shots included.
inline constexpr int kMaxPlannedShots = 100'000;

/// Whether the plan can be kept: no name is empty or there twice (an implement by name and
/// condition), texts are UTF-8, attributes belong to named columns, numbers lie in their range
/// (counts from 1, at most kMax…; rests up to 24 hours). It may be unfinished: without implements
/// or hitters. Errors: InvalidInput, OutOfRange, NotFinite; the message names what is wrong.
Result<void> checkPlan(const Plan& plan);

/// "polyester 23 kg", with the condition where another planned implement has the same name.
[[nodiscard]] std::string implementLabel(const Plan& plan, std::size_t implement);

/// The plan as one JSON text (RFC 8259), members as in core/project/FORMAT.md R23.
[[nodiscard]] std::string planToJson(const Plan& plan);
/// Members that are not known are passed over. Errors: InvalidInput; those of checkPlan().
Result<Plan> planFromJson(std::string_view text);

}  // namespace core::plan
