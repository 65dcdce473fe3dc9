#include "core/publish/tables/findings_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/words/findings.h"

namespace core::publish {
namespace {

using FindingsJson = nlohmann::ordered_json;
using findings::Comparison;
using findings::Findings;

constexpr auto kPublished = words::Advice::Without;

FindingsJson finiteOrNull(double value) {
    return std::isfinite(value) ? FindingsJson(value) : FindingsJson();
}

FindingsJson rangeJson(const Interval<double>& interval) {
    return FindingsJson::array({finiteOrNull(interval.low), finiteOrNull(interval.high)});
}

FindingsJson estimateJson(const findings::Estimate& estimate) {
    return {{"value_rpm", finiteOrNull(estimate.value)},
            {"standard_uncertainty_rpm", finiteOrNull(estimate.standardUncertainty)},
            {"interval_rpm", rangeJson(estimate.interval95)},
            {"degrees_of_freedom", finiteOrNull(estimate.dof)}};
}

FindingsJson judgedJson(const stats::JudgedEstimate& judged) {
    return {{"value", finiteOrNull(judged.estimate)},
            {"standard_error", finiteOrNull(judged.standardError)},
            {"interval", rangeJson(judged.interval)},
            {"p", finiteOrNull(judged.pValue)}};
}

/// {"known": true, …} or {"known": false, "why_not": "…"}.
template <class T, class ToJson>
FindingsJson saidJson(const findings::Said<T>& said, const ToJson& toJson) {
    return said ? toJson(*said)
                : FindingsJson{{"why_not", words::whyNot(said.whyNot(), kPublished)}};
}

FindingsJson testJson(const stats::VarianceRatioTest& test) {
    return {{"f", finiteOrNull(test.f)}, {"p", finiteOrNull(test.pValue)}};
}

FindingsJson rankedJson(const findings::RankedImplement& row, const Comparison& comparison) {
    FindingsJson notes = FindingsJson::array();
    for (const auto& note : row.notes) {
        notes.push_back(words::note(note));
    }
    return {{"implement", row.name},
            {"shots", row.shots},
            {"mean", estimateJson(row.mean)},
            {"scatter_rpm", row.scatterRpm ? finiteOrNull(*row.scatterRpm) : FindingsJson()},
            {"letters", row.letters},
            {"rank", saidJson(row.rank,
                              [](const stats::RankInterval& rank) {
                                  return FindingsJson{
                                      {"estimate", rank.rank},
                                      {"best", rank.lowest},
                                      {"worst", rank.highest},
                                      {"first_chance", finiteOrNull(rank.firstChance)}};
                              })},
            {"band", row.band ? FindingsJson(*row.band) : FindingsJson()},
            {"sentence", words::sentence(row, comparison, kPublished)},
            {"notes", notes}};
}

FindingsJson comparisonJson(const Comparison& comparison, std::optional<Rpm> step) {
    FindingsJson ranked = FindingsJson::array();
    for (const auto& row : comparison.ranked) {
        ranked.push_back(rankedJson(row, comparison));
    }
    FindingsJson leftOut = FindingsJson::array();
    for (const auto& item : comparison.leftOut) {
        leftOut.push_back(
            {{"implement", item.name}, {"why_not", words::whyNot(item.whyNot, kPublished)}});
    }
    return {{"hitter", comparison.hitter ? FindingsJson(comparison.hitterName) : FindingsJson()},
            {"model",
             comparison.model == findings::ComparisonModel::CellMeans ? "cell means" : "additive"},
            {"sentence", words::sentence(comparison, step, kPublished)},
            {"welch", saidJson(comparison.welch, testJson)},
            {"welch_sentence", words::testSentence(comparison, kPublished)},
            {"ranked", ranked},
            {"left_out", leftOut},
            {"pairs_are_in", comparison.hitter ? "pairs_by_hitter.csv" : "pairs.csv"},
            {"why_no_pairs", words::whyNoPairs(comparison, kPublished)}};
}

FindingsJson hittersJson(const findings::HitterFindings& hitters, std::optional<Rpm> step) {
    FindingsJson pairs = FindingsJson::array();
    for (const auto& pair : hitters.pairs) {
        pairs.push_back({{"implement", pair.implementName},
                         {"first", pair.firstName},
                         {"second", pair.secondName},
                         {"difference_rpm", saidJson(pair.difference, judgedJson)},
                         {"sentence", words::sentence(pair, step, kPublished)}});
    }
    FindingsJson interaction = FindingsJson::array();
    for (const auto& cell : hitters.interaction) {
        interaction.push_back({{"implement", cell.implementName},
                               {"hitter", cell.hitterName},
                               {"departure_rpm", finiteOrNull(cell.departureRpm)},
                               {"adjusted_p", finiteOrNull(cell.adjustedP)},
                               {"sentence", words::sentence(hitters.groupOf(cell), kPublished)}});
    }
    return {{"sentence", words::sentence(hitters, kPublished)},
            {"missing", words::missingSentence(hitters)},
            {"interaction", interaction},
            {"pairs", pairs}};
}

FindingsJson trendsJson(const Findings& findings) {
    FindingsJson drifts = FindingsJson::array();
    for (const auto& drift : findings.drifts) {
        drifts.push_back({{"session", drift.sessionName},
                          {"hitter", drift.hitterName},
                          {"rpm_per_shot", saidJson(drift.perShot, judgedJson)},
                          {"sentence", words::sentence(drift, kPublished)}});
    }
    FindingsJson attributes = FindingsJson::array();
    for (const auto& attribute : findings.attributes) {
        attributes.push_back({{"attribute", attribute.attribute},
                              {"pearson", saidJson(attribute.pearson,
                                                   [](const stats::Correlation& found) {
                                                       return finiteOrNull(found.coefficient);
                                                   })},
                              {"spearman", saidJson(attribute.spearman,
                                                    [](const stats::Correlation& found) {
                                                        return finiteOrNull(found.coefficient);
                                                    })},
                              {"sentence", words::sentence(attribute, kPublished)}});
    }
    FindingsJson conditions = FindingsJson::array();
    for (const auto& contrast : findings.conditions) {
        conditions.push_back(
            {{"implement", contrast.name},
             {"first", contrast.firstCondition},
             {"second", contrast.secondCondition},
             {"difference_rpm", saidJson(contrast.difference, judgedJson)},
             {"sentence", words::sentence(contrast, findings.noticeableStep, kPublished)}});
    }
    FindingsJson sessions = FindingsJson::array();
    for (const auto& link : findings.sessions) {
        sessions.push_back({{"first", link.firstName},
                            {"second", link.secondName},
                            {"shared_cells", link.sharedCells},
                            {"difference_rpm", saidJson(link.difference, judgedJson)},
                            {"sentence", words::sentence(link, kPublished)}});
    }
    return {{"drift", drifts},
            {"attributes", attributes},
            {"conditions", conditions},
            {"sessions", sessions},
            {"ball_speed", words::sentence(findings.speed, kPublished)}};
}

FindingsJson agreementJson(const findings::AgreementFindings& agreement) {
    FindingsJson repeats = FindingsJson::array();
    for (const auto& repeat : agreement.repeats) {
        repeats.push_back({{"reader", repeat.reader},
                           {"shots", repeat.shots.size()},
                           {"sentence", words::sentence(repeat, kPublished)}});
    }
    const auto limitsJson = [](const stats::AgreementLimits& limits) {
        return FindingsJson{{"mean_difference", finiteOrNull(limits.meanDifference)},
                            {"lower", finiteOrNull(limits.lower.value)},
                            {"upper", finiteOrNull(limits.upper.value)}};
    };
    FindingsJson pairs = FindingsJson::array();
    for (const auto& pair : agreement.readerPairs) {
        pairs.push_back({{"first", pair.first},
                         {"second", pair.second},
                         {"shots", pair.shots.size()},
                         {"limits_rpm", saidJson(pair.limits, limitsJson)},
                         {"sentence", words::sentence(pair, kPublished)}});
    }
    return {{"methods",
             {{"shots", agreement.methods.shots.size()},
              {"limits_rpm", saidJson(agreement.methods.limits, limitsJson)},
              {"sentence", words::sentence(agreement.methods, kPublished)}}},
            {"repeats", repeats},
            {"reader_pairs", pairs},
            {"readers",
             {{"readers", agreement.readers.readers},
              {"shots", agreement.readers.shots.size()},
              {"sentence", words::sentence(agreement.readers, kPublished)}}}};
}

FindingsJson bandsJson(const findings::Bands& bands) {
    FindingsJson all = FindingsJson::array();
    for (const auto& band : bands.all()) {
        all.push_back({{"name", band.name},
                       {"low_rpm", band.low ? FindingsJson(band.low->rpm) : FindingsJson()},
                       {"high_rpm", band.high ? FindingsJson(band.high->rpm) : FindingsJson()}});
    }
    return all;
}

}  // namespace

std::string findingsJson(const Findings& findings, const Origin& origin) {
    FindingsJson comparisons = FindingsJson::array();
    for (const auto& comparison : findings.comparisons) {
        comparisons.push_back(comparisonJson(comparison, findings.noticeableStep));
    }
    FindingsJson oddShots = FindingsJson::array();
    for (const auto& odd : findings.oddShots()) {
        oddShots.push_back({{"shot_id", odd.shot.value},
                            {"rpm", finiteOrNull(odd.rpm)},
                            {"sentence", words::sentence(odd, kPublished)}});
    }
    return FindingsJson{{"program", origin.program},
                        {"project", origin.title},
                        {"revision", origin.revision},
                        {"changed", origin.lastChange.empty() ? FindingsJson()
                                                              : FindingsJson(origin.lastChange)},
                        {"seed", findings.seed},
                        {"looks_before", findings.looks},
                        {"looks_sentence", words::looksSentence(findings.looks, kPublished)},
                        {"noticeable_step_rpm", findings.noticeableStep
                                                    ? FindingsJson(findings.noticeableStep->rpm)
                                                    : FindingsJson()},
                        {"bands", bandsJson(findings.bands)},
                        {"method", words::methodSentences(findings, kPublished)},
                        {"comparisons", comparisons},
                        {"hitters", hittersJson(findings.hitters, findings.noticeableStep)},
                        {"trends", trendsJson(findings)},
                        {"agreement", agreementJson(findings.agreement)},
                        {"odd_shots", oddShots}}
               .dump(2, ' ', false, FindingsJson::error_handler_t::replace) +
           "\n";
}

}  // namespace core::publish
