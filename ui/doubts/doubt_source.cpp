#include "ui/doubts/doubt_source.h"

namespace ui::doubts {
namespace {

constexpr std::size_t kShotsAtOnce = 20;  // a few milliseconds

/// What a job brings home.
struct Computed {
    core::findings::FindingsPtr findings;
    core::doubts::DoubtsPtr doubts;
};

}  // namespace

DoubtSource::DoubtSource(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent)
    : QObject{parent}, m_store{store}, m_jobs{jobs}, m_gatherer{store} {
    m_timer.setInterval(0);
    connect(&m_timer, &QTimer::timeout, this, &DoubtSource::gatherSome);
    m_listening =
        store.listen([this](const core::project::Store::Change& change) { onStoreChange(change); });
}

DoubtSource::~DoubtSource() = default;

void DoubtSource::setWanted(bool wanted) {
    m_isWanted = wanted;
    if (m_isWanted && m_isStale) {
        m_timer.start();
    }
}

void DoubtSource::onPicturesRead(core::project::ShotId shot) {
    m_gatherer.refresh(std::vector{shot});
    m_isStale = true;
    setWanted(m_isWanted);
}

void DoubtSource::onStoreChange(const core::project::Store::Change& change) {
    if (change.allShots) {
        m_gatherer.refresh();
    } else if (!change.shots.empty()) {
        m_gatherer.refresh(change.shots);
    }
    m_isStale = true;
    setWanted(m_isWanted);
}

void DoubtSource::gatherSome() {
    const auto isDone = m_gatherer.gather(kShotsAtOnce);
    if (!isDone) {
        m_timer.stop();
        Q_EMIT failed(QString::fromStdString(isDone.error().message));
    } else if (isDone.value()) {
        m_timer.stop();
        compute();
    }
}

void DoubtSource::compute() {
    if (m_isComputing) {
        return;  // what comes home is stale and leads here again
    }
    m_isComputing = true;
    m_isStale = false;
    m_jobs.start<Computed>(
        tr("Looking for doubtful shots"),
        [material = m_gatherer.material(),
         earlier = m_findings](bridge::JobContext& context) -> core::Result<Computed> {
            auto found = core::findings::findFindings(*material.snapshot, {}, context.stopToken(),
                                                      earlier.get());
            if (!found) {
                return found.error();
            }
            auto doubts = core::doubts::findDoubts(material, found.value());
            return Computed{
                std::make_shared<const core::findings::Findings>(std::move(found).value()),
                std::make_shared<const core::doubts::Doubts>(std::move(doubts))};
        },
        this,
        [this](const core::Result<Computed>& computed) {
            m_isComputing = false;
            if (computed) {
                m_findings = computed.value().findings;
                m_doubts = computed.value().doubts;
                Q_EMIT changed();
            } else if (computed.error().code != core::ErrorCode::Cancelled) {
                Q_EMIT failed(QString::fromStdString(computed.error().message));
            }
            if (m_isStale) {
                setWanted(m_isWanted);
            }
        });
}

}  // namespace ui::doubts
