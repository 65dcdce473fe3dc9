#include "ui/bridge/frame_requester.h"

#include <memory>

namespace ui::bridge {

using core::Result;
using core::media::FramePtr;
using core::timebase::FrameIndex;

FrameRequester::FrameRequester(core::media::FrameService& service, QObject* parent)
    : QObject{parent}, m_service{service}, m_home{*this} {}

FrameRequester::~FrameRequester() {
    m_home.close();
    closeClips();
}

std::optional<FrameRequester::Clip> FrameRequester::findClip(const std::filesystem::path& file,
                                                             int rotationDegrees) const {
    const auto known = m_clips.find(file);
    return known == m_clips.end() || known->second.rotationDegrees != rotationDegrees
               ? std::nullopt
               : std::optional{known->second.clip};
}

FrameRequester::Clip FrameRequester::openClip(const std::filesystem::path& file,
                                              const core::media::ClipIndex& index) {
    const int turn = index.facts.rotationDegrees;
    const auto known = m_clips.find(file);
    if (known != m_clips.end() && known->second.rotationDegrees == turn) {
        return known->second.clip;
    }
    if (known != m_clips.end()) {
        m_service.closeClip(known->second.clip);  // a person has turned it since
    }
    const Clip opened = m_service.openClip(file, index);
    m_clips[file] = {opened, turn};
    return opened;
}

void FrameRequester::closeClips() {
    ++m_newestPicture;
    ++m_newestCutOuts;
    m_cutOutsDropped.request_stop();
    m_service.forgetPrepared();
    for (const auto& [file, open] : m_clips) {
        m_service.closeClip(open.clip);
    }
    m_clips.clear();
}

quint64 FrameRequester::requestPicture(Clip clip, FrameIndex frame, Direction direction,
                                       QSize fitInto) {
    const quint64 number = ++m_newestPicture;
    m_service.request(
        clip, frame, direction,
        [this, home = m_home, number, fitInto](FrameIndex index, Result<FramePtr> reply) {
            home.post([this, number, fitInto, index, reply = std::move(reply)] {
                if (number != m_newestPicture) {
                    return;
                }
                if (reply) {
                    convertPicture(number, reply.value(), fitInto);
                } else if (reply.error().code != core::ErrorCode::Cancelled) {
                    Q_EMIT pictureFailed(number, index.value,
                                         QString::fromStdString(reply.error().message));
                }
            });
        });
    return number;
}

QImage FrameRequester::pictureNow(Clip clip, FrameIndex frame, QSize fitInto) {
    const FramePtr ready = m_service.ready(clip, frame);
    return ready ? wholePicture(*ready, fitInto) : QImage{};
}

void FrameRequester::convertPicture(quint64 number, const FramePtr& frame, QSize fitInto) {
    m_converter.cancel(m_pictureJob);  // the newest counts
    m_pictureJob = m_converter.add(
        {}, core::jobs::Priority::Looked,
        [this, home = m_home, number, frame, fitInto](const core::jobs::Context& context) {
            if (context.isCancelled()) {
                return;
            }
            home.post([this, number, index = frame->index().value,
                       picture = wholePicture(*frame, fitInto)] {
                if (number == m_newestPicture) {
                    Q_EMIT pictureReady(number, index, picture);
                }
            });
        });
}

quint64 FrameRequester::requestCutOuts(Clip clip, std::vector<CutOut> cutOuts) {
    const quint64 number = ++m_newestCutOuts;
    m_cutOutsDropped.request_stop();
    m_cutOutsDropped = {};
    std::map<FrameIndex, CutOut> missing;
    for (const CutOut& cutOut : cutOuts) {
        if (const FramePtr frame = m_service.ready(clip, cutOut.frame)) {
            convertCutOut(number, frame, cutOut);
        } else {
            missing.emplace(cutOut.frame, cutOut);
        }
    }
    if (missing.empty()) {
        return number;
    }
    m_service.forgetPrepared();  // what is looked at comes before what may come next
    const FrameIndex first = missing.begin()->first;
    const FrameIndex last = missing.rbegin()->first;
    const auto wanted = std::make_shared<const std::map<FrameIndex, CutOut>>(std::move(missing));
    m_service.prepare(
        clip, first, last,
        [this, home = m_home, number, wanted](FrameIndex index, Result<FramePtr> reply) {
            if (!wanted->contains(index)) {
                return;
            }
            home.post([this, number, wanted, index, reply = std::move(reply)] {
                if (number != m_newestCutOuts) {
                    return;
                }
                if (reply) {
                    convertCutOut(number, reply.value(), wanted->at(index));
                } else if (reply.error().code != core::ErrorCode::Cancelled) {
                    Q_EMIT cutOutFailed(number, index.value,
                                        QString::fromStdString(reply.error().message));
                }
            });
        });
    return number;
}

void FrameRequester::convertCutOut(quint64 number, const FramePtr& frame, const CutOut& cutOut) {
    m_converter.add({}, core::jobs::Priority::Usual,
                    [this, home = m_home, number, frame, cutOut,
                     dropped = m_cutOutsDropped.get_token()](const core::jobs::Context&) {
                        if (dropped.stop_requested()) {
                            return;
                        }
                        home.post([this, number, index = cutOut.frame.value,
                                   picture = cutOutPicture(*frame, cutOut)] {
                            if (number == m_newestCutOuts) {
                                Q_EMIT cutOutReady(number, index, picture);
                            }
                        });
                    });
}

void FrameRequester::prepare(Clip clip, FrameIndex first, FrameIndex last) {
    m_service.prepare(clip, first, last);
}

}  // namespace ui::bridge
