#include "core/findings/agreement.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "core/base/words.h"
#include "core/findings/find_agreement.h"
#include "core/findings/words.h"

namespace core::findings {
namespace {

using project::Reading;
using project::ReadingMethod;
using ReadingsOfShots = std::map<project::ShotId, std::vector<const Reading*>>;

/// All readings, oldest first, of the shots that were read more than once and not set aside.
ReadingsOfShots readMoreThanOnce(const project::Snapshot& snapshot) {
    std::vector<const Reading*> readings;
    readings.reserve(snapshot.readings.size());
    for (const Reading& reading : snapshot.readings) {
        readings.push_back(&reading);
    }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const Reading* a, const Reading* b) { return a->shot < b->shot; });
    ReadingsOfShots shots;
    for (auto begin = readings.begin(); begin != readings.end();) {
        const auto end = std::find_if(begin, readings.end(), [begin](const Reading* reading) {
            return reading->shot != (*begin)->shot;
        });
        const auto* shot = snapshot.shots.find((*begin)->shot);
        if (end - begin > 1 && shot != nullptr &&
            shot->standing != project::ShotStanding::SetAside) {
            shots[(*begin)->shot].assign(begin, end);
        }
        begin = end;
    }
    return shots;
}

void split(const std::vector<ReadTwice>& shots, std::vector<double>& first,
           std::vector<double>& second) {
    for (const ReadTwice& shot : shots) {
        first.push_back(shot.firstRpm);
        second.push_back(shot.secondRpm);
    }
}

MethodAgreement methodAgreement(const ReadingsOfShots& shots) {
    MethodAgreement found;
    for (const auto& [shot, readings] : shots) {
        const Reading* marks = nullptr;
        const Reading* fit = nullptr;
        for (const Reading* reading : readings) {
            (reading->method == ReadingMethod::Marks ? marks : fit) = reading;
        }
        if (marks != nullptr && fit != nullptr) {
            found.shots.push_back({shot, marks->rate.value.rpm, fit->rate.value.rpm});
        }
    }
    std::vector<double> first;
    std::vector<double> second;
    split(found.shots, first, second);
    if (found.shots.size() < 3) {
        found.limits = Said<stats::AgreementLimits>::because(saidOf(
            found.shots.size(),
            "Readings by marks and from the pictures can be compared when three shots have both; "
            "{} has.",
            "Readings by marks and from the pictures can be compared when three shots have both; "
            "{} have.",
            found.shots.size()));
        found.sentence = found.limits.whyNot();
        return found;
    }
    found.limits = Said<stats::AgreementLimits>{stats::limitsOfAgreement({first, second})};
    if (!found.limits) {
        found.sentence = found.limits.whyNot();
        return found;
    }
    const auto& limits = *found.limits;
    const double sigma = limits.limitError;
    const bool hasBias = limits.meanInterval.low > 0.0 || limits.meanInterval.high < 0.0;
    found.sentence = said(
        "On {} read both ways, marks less pictures is {} on average (95 %: {}; {}); for 95 % of "
        "shots the two differ by {} (limits of agreement, each ± {}).",
        counted(limits.count, "shot", "shots"), words::rpm(limits.meanDifference, sigma),
        words::between(limits.meanInterval, sigma),
        hasBias ? said("one of them is biased") : said("no bias shown"),
        words::between({limits.lower.value, limits.upper.value}, sigma),
        words::rpm((limits.upper.interval.high - limits.upper.interval.low) / 2.0, sigma));
    return found;
}

using ByReader = std::map<std::string, std::vector<const Reading*>>;

ByReader marksByReader(const std::vector<const Reading*>& readings) {
    ByReader by;
    for (const Reading* reading : readings) {
        if (reading->method == ReadingMethod::Marks) {
            by[reading->reader].push_back(reading);
        }
    }
    return by;
}

std::vector<RepeatFinding> findRepeats(const ReadingsOfShots& shots) {
    std::map<std::string, RepeatFinding> found;
    for (const auto& [shot, readings] : shots) {
        for (const auto& [reader, own] : marksByReader(readings)) {
            if (own.size() >= 2) {
                found[reader].reader = reader;
                found[reader].shots.push_back(
                    {shot, own[own.size() - 2]->rate.value.rpm, own.back()->rate.value.rpm});
            }
        }
    }
    std::vector<RepeatFinding> repeats;
    for (auto& [reader, repeat] : found) {
        std::vector<double> first;
        std::vector<double> second;
        split(repeat.shots, first, second);
        repeat.repeatability =
            Said<stats::Repeatability>{stats::repeatabilityOfPairs({first, second})};
        if (repeat.repeatability) {
            const double sigma = repeat.repeatability->withinDeviation;
            repeat.sentence = said(
                "{} read again by {}: two readings of one shot differ by less than {} in 95 % of "
                "cases (repeatability; standard deviation of one reading {}).",
                counted(repeat.shots.size(), "shot", "shots"), words::reader(reader),
                words::rpm(repeat.repeatability->limit, sigma), words::rpm(sigma, sigma));
        } else {
            repeat.sentence = repeat.repeatability.whyNot();
        }
        repeats.push_back(std::move(repeat));
    }
    return repeats;
}

/// The shots that all of these readers have read by marks.
std::vector<project::ShotId> readByAll(const std::map<project::ShotId, ByReader>& shots,
                                       const std::vector<std::string>& readers) {
    std::vector<project::ShotId> common;
    for (const auto& read : shots) {
        const bool isCommon = std::all_of(
            readers.begin(), readers.end(),
            [&read](const std::string& reader) { return read.second.contains(reader); });
        if (isCommon) {
            common.push_back(read.first);
        }
    }
    return common;
}

/// All readers when they share shots; else the two that share the most.
void chooseReaders(ReaderStudy& study, const std::map<project::ShotId, ByReader>& shots,
                   const std::vector<std::string>& readers) {
    study.readers = readers;
    study.shots = readByAll(shots, readers);
    if (study.shots.size() >= 2 || readers.size() == 2) {
        return;
    }
    for (std::size_t a = 0; a < readers.size(); ++a) {
        for (std::size_t b = a + 1; b < readers.size(); ++b) {
            auto common = readByAll(shots, {readers[a], readers[b]});
            if (common.size() > study.shots.size()) {
                study.readers = {readers[a], readers[b]};
                study.shots = std::move(common);
            }
        }
    }
}

std::vector<double> studyValues(const ReaderStudy& study,
                                const std::map<project::ShotId, ByReader>& shots,
                                std::size_t repeats) {
    std::vector<double> values;
    for (const auto shot : study.shots) {
        for (const std::string& reader : study.readers) {
            for (std::size_t k = 0; k < repeats; ++k) {
                values.push_back(shots.at(shot).at(reader)[k]->rate.value.rpm);
            }
        }
    }
    return values;
}

void wordStudy(ReaderStudy& study) {
    if (!study.intraclass) {
        study.sentence = study.intraclass.whyNot();
        return;
    }
    const auto& icc = study.intraclass->randomSingle;
    std::vector<std::string> readers;
    std::transform(study.readers.begin(), study.readers.end(), std::back_inserter(readers),
                   words::reader);
    study.sentence = said(
        "{} read by each of {}: intraclass correlation ICC(2,1) {:.3f} (95 %: {:.3f} to {:.3f}).",
        counted(study.shots.size(), "shot", "shots"), words::joined(readers), icc.value,
        icc.interval.low, icc.interval.high);
    if (study.gauge) {
        const auto& parts =
            study.gauge->isPooledAdvised ? study.gauge->pooled : study.gauge->withInteraction;
        const double sigma = std::sqrt(parts.gauge());
        study.sentence +=
            said(" The same reader again: {}; another reader: {} more (standard deviations).",
                 words::rpm(std::sqrt(parts.repeatability), sigma),
                 words::rpm(std::sqrt(parts.reproducibility), sigma));
    } else {
        study.sentence += " " + study.gauge.whyNot();
    }
}

ReaderStudy readerStudy(const ReadingsOfShots& readings) {
    ReaderStudy study;
    std::map<project::ShotId, ByReader> shots;
    std::set<std::string> readers;
    for (const auto& [shot, all] : readings) {
        ByReader by = marksByReader(all);
        if (by.size() >= 2) {
            for (const auto& [reader, own] : by) {
                readers.insert(reader);
            }
            shots[shot] = std::move(by);
        }
    }
    if (!readers.empty()) {
        chooseReaders(study, shots, {readers.begin(), readers.end()});
    }
    if (study.shots.size() < 2) {
        const std::string why = said(
            "How well readers agree can be said when two of them have read the same two shots.");
        study.gauge = Said<stats::GaugeStudy>::because(why);
        study.intraclass = Said<stats::IntraclassForms>::because(why);
        study.sentence = why;
        return study;
    }
    study.repeats = std::numeric_limits<std::size_t>::max();
    for (const auto shot : study.shots) {
        for (const std::string& reader : study.readers) {
            study.repeats = std::min(study.repeats, shots.at(shot).at(reader).size());
        }
    }
    const auto once = studyValues(study, shots, 1);
    study.intraclass = Said<stats::IntraclassForms>{
        stats::intraclassCorrelations({study.shots.size(), study.readers.size(), 1, once})};
    if (study.repeats < 2) {
        study.gauge = Said<stats::GaugeStudy>::because(
            said("Repeatability and reproducibility need each of these shots read twice by each "
                 "reader."));
    } else {
        const auto all = studyValues(study, shots, study.repeats);
        study.gauge = Said<stats::GaugeStudy>{
            stats::analyseGauge({study.shots.size(), study.readers.size(), study.repeats, all})};
    }
    wordStudy(study);
    return study;
}

std::vector<ReaderPair> readerPairs(const ReadingsOfShots& readings) {
    std::map<std::pair<std::string, std::string>, ReaderPair> pairs;
    for (const auto& [shot, all] : readings) {
        const ByReader by = marksByReader(all);
        for (auto first = by.begin(); first != by.end(); ++first) {
            for (auto second = std::next(first); second != by.end(); ++second) {
                ReaderPair& pair = pairs[{first->first, second->first}];
                pair.first = first->first;
                pair.second = second->first;
                pair.shots.push_back({shot, first->second.front()->rate.value.rpm,
                                      second->second.front()->rate.value.rpm});
            }
        }
    }
    std::vector<ReaderPair> found;
    for (auto& [names, pair] : pairs) {
        if (pair.shots.size() < 3) {
            continue;
        }
        std::vector<double> first;
        std::vector<double> second;
        split(pair.shots, first, second);
        pair.limits = Said<stats::AgreementLimits>{stats::limitsOfAgreement({first, second})};
        pair.sentence = pair.limits.whyNot();
        if (pair.limits) {
            const auto& limits = *pair.limits;
            const double sigma = limits.limitError;
            const bool hasBias = limits.meanInterval.low > 0.0 || limits.meanInterval.high < 0.0;
            const std::string comparison =
                limits.meanDifference < 0.0
                    ? said("{} reads {} less than {}", words::reader(pair.first),
                           words::rpm(-limits.meanDifference, sigma), words::reader(pair.second))
                    : said("{} reads {} more than {}", words::reader(pair.first),
                           words::rpm(limits.meanDifference, sigma), words::reader(pair.second));
            pair.sentence = said(
                "On {} read by both, {} on average (95 %: {}); for 95 % of shots the two differ by "
                "{} (limits of agreement).",
                counted(limits.count, "shot", "shots"), comparison,
                words::between(limits.meanInterval, sigma),
                words::between({limits.lower.value, limits.upper.value}, sigma));
            pair.sentence += hasBias ? said(" One of them is biased.") : "";
        }
        found.push_back(std::move(pair));
    }
    return found;
}

}  // namespace

AgreementFindings findAgreement(const project::Snapshot& snapshot) {
    const ReadingsOfShots shots = readMoreThanOnce(snapshot);
    return {methodAgreement(shots), findRepeats(shots), readerStudy(shots), readerPairs(shots)};
}

}  // namespace core::findings
