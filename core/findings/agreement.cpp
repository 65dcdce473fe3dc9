#include "core/findings/agreement.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "core/findings/find_agreement.h"

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

Said<stats::AgreementLimits> limitsOf(const std::vector<ReadTwice>& shots) {
    std::vector<double> first;
    std::vector<double> second;
    split(shots, first, second);
    return stats::limitsOfAgreement({first, second});
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
    if (found.shots.size() < 3) {
        found.limits = WhyNot{WhyNot::Kind::FewReadBothWays, found.shots.size()};
    } else {
        found.limits = limitsOf(found.shots);
    }
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
        study.gauge = WhyNot::Kind::FewReadByTwoReaders;
        study.intraclass = WhyNot::Kind::FewReadByTwoReaders;
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
        study.gauge = WhyNot::Kind::NotReadTwiceByEach;
    } else {
        const auto all = studyValues(study, shots, study.repeats);
        study.gauge = Said<stats::GaugeStudy>{
            stats::analyseGauge({study.shots.size(), study.readers.size(), study.repeats, all})};
    }
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
        pair.limits = limitsOf(pair.shots);
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
