#include "ui/footage/test_clip_window.h"

#include <QComboBox>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QFormLayout>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QProgressBar>
#include <QPushButton>
#include <QScreen>
#include <QScrollArea>
#include <QVBoxLayout>

#include "core/base/files.h"
#include "core/base/number.h"
#include "ui/footage/film_filter.h"
#include "ui/footage/marking_box.h"
#include "ui/models/clip_words.h"
#include "ui/models/number_text.h"
#include "ui/style/ask.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/sign_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

using core::intake::TestClip;
using core::intake::TestPoint;

constexpr double kMostBallMm = 500.0;
constexpr double kMostTestFps = 1e6;
constexpr QSize kUsualTestSize{660, 660};
constexpr int kTestFieldDigits = 9;

QLabel* plainWords(const QString& text = {}) {
    auto* label = new QLabel{text};
    style::showPlainWords(label);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

QString wordsFrom(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

std::pair<style::Sign, style::Token> signOfVerdict(TestPoint::Verdict verdict) {
    switch (verdict) {
        case TestPoint::Verdict::Good:
            return {style::Sign::Done, style::Token::Done};
        case TestPoint::Verdict::Check:
            return {style::Sign::Question, style::Token::Question};
        case TestPoint::Verdict::Change:
            break;
    }
    return {style::Sign::Grave, style::Token::Grave};
}

/// Sign, name and value of each point, what to do below.
QWidget* listOf(const TestClip& clip) {
    auto* list = new QWidget;
    auto* grid = new QGridLayout{list};
    grid->setContentsMargins(0, 0, style::kBetweenPx, 0);
    grid->setHorizontalSpacing(style::kBetweenPx);
    grid->setVerticalSpacing(2);
    grid->setColumnStretch(2, 1);
    int row = 0;
    for (const TestPoint& point : clip.points) {
        const auto [sign, token] = signOfVerdict(point.verdict);
        auto* mark = new style::SignLabel{sign, token};
        mark->setToolTip(wordsFrom(nameOf(point.verdict)));
        auto* name = new QLabel{wordsFrom(titleOf(point.kind))};
        style::setTextSize(name, style::TextSize::Body, style::Weight::Strong);
        grid->addWidget(mark, row, 0, Qt::AlignTop);
        grid->addWidget(name, row, 1, Qt::AlignTop);
        grid->addWidget(plainWords(QString::fromStdString(point.value)), row, 2);
        if (!point.advice.empty()) {
            grid->addWidget(plainWords(QString::fromStdString(point.advice)), ++row, 2);
            grid->itemAtPosition(row, 2)->widget()->setForegroundRole(QPalette::PlaceholderText);
        }
        grid->setRowMinimumHeight(++row, style::kPairPx);
        ++row;
    }
    grid->setRowStretch(row, 1);
    return list;
}

}  // namespace

TestClipWindow::TestClipWindow(bridge::JobRunner& jobs, const core::intake::DaySetUp& known,
                               QWidget* parent)
    : QWidget{parent, Qt::Window},
      m_jobs{jobs},
      m_known{known},
      m_headline{plainWords()},
      m_words{plainWords()},
      m_bar{new QProgressBar},
      m_diameter{new QLineEdit},
      m_rate{new QLineEdit},
      m_marking{makeMarkingBox()},
      m_points{new QScrollArea},
      m_choose{new QPushButton{tr("Choose a clip…")}},
      m_again{new QPushButton{tr("Judge again")}},
      m_print{new QPushButton{tr("Print…")}} {
    setObjectName(QStringLiteral("test_clip"));
    setWindowTitle(tr("Test clip"));
    setAcceptDrops(true);
    m_headline->setObjectName(QStringLiteral("test_headline"));
    style::setTextSize(m_headline, style::TextSize::Title, style::Weight::Strong);
    m_words->setForegroundRole(QPalette::PlaceholderText);
    m_words->setObjectName(QStringLiteral("test_words"));
    m_bar->setRange(0, 0);
    m_bar->setTextVisible(false);
    m_bar->hide();
    m_points->setObjectName(QStringLiteral("test_points"));
    m_points->setWidgetResizable(true);
    m_points->setFrameShape(QFrame::NoFrame);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kPagePx, style::kPagePx, style::kPagePx, style::kPagePx);
    layout->setSpacing(style::kBetweenPx);
    layout->addWidget(m_headline);
    layout->addWidget(m_words);
    layout->addWidget(m_bar);
    layout->addWidget(makeKnown());
    layout->addWidget(m_points, 1);
    layout->addWidget(makeButtons());
    resize(kUsualTestSize.boundedTo(screen()->availableSize() - QSize{0, 60}));
    showHeadline(tr("Film a few strikes first, and drop the clip here"),
                 tr("Turnmark says whether shots filmed like this can be read, and what to change "
                    "before you film hundreds. Nothing goes into a project."));
    showRunning(false);
}

TestClipWindow::~TestClipWindow() {
    if (m_job) {
        m_jobs.cancel(*m_job);
    }
}

QWidget* TestClipWindow::makeKnown() {
    const int width =
        kTestFieldDigits * fontMetrics().horizontalAdvance(QLatin1Char('0')) + style::kGroupsPx;
    const auto fill = [width](QLineEdit* field, const char* name, const QString& what,
                              const std::optional<double>& value) {
        field->setObjectName(QLatin1String{name});
        field->setAccessibleName(what);
        field->setPlaceholderText(tr("not known"));
        field->setText(value ? models::shortDecimal(*value) : QString{});
        field->setFixedWidth(width);
    };
    fill(m_diameter, "test_diameter", tr("Ball diameter in mm"), m_known.session.ballDiameterMm);
    fill(m_rate, "test_rate", tr("Capture rate in frames per second"),
         m_known.captureRate ? std::optional{m_known.captureRate->fps.toDouble()} : std::nullopt);
    m_rate->setToolTip(tr("As the camera's manual says; empty: as the file says, if it does"));
    m_marking->setObjectName(QStringLiteral("test_marking"));
    m_marking->setCurrentIndex(static_cast<int>(m_known.session.marking));
    connect(m_diameter, &QLineEdit::returnPressed, this, &TestClipWindow::judgeAgain);
    connect(m_rate, &QLineEdit::returnPressed, this, &TestClipWindow::judgeAgain);
    auto* place = new QWidget;
    auto* grid = new QGridLayout{place};
    grid->setContentsMargins(0, 0, 0, 0);
    grid->addWidget(new QLabel{tr("Ball diameter, mm")}, 0, 0);
    grid->addWidget(m_diameter, 0, 1);
    grid->addWidget(new QLabel{tr("Capture rate, frames/s")}, 0, 2);
    grid->addWidget(m_rate, 0, 3);
    grid->addWidget(new QLabel{tr("Ball marking")}, 1, 0);
    grid->addWidget(m_marking, 1, 1, 1, 3, Qt::AlignLeft);
    grid->setColumnStretch(4, 1);
    return place;
}

QWidget* TestClipWindow::makeButtons() {
    m_choose->setObjectName(QStringLiteral("test_choose"));
    m_again->setObjectName(QStringLiteral("test_again"));
    m_again->setToolTip(tr("With what is entered above, for example the ball's diameter (Enter)"));
    m_print->setObjectName(QStringLiteral("test_print"));
    m_print->setToolTip(tr("Writes this as a PDF, with the cautions"));
    style::setRank(m_print, style::Rank::Quiet);
    connect(m_choose, &QPushButton::clicked, this, &TestClipWindow::chooseClip);
    connect(m_again, &QPushButton::clicked, this, &TestClipWindow::judgeAgain);
    connect(m_print, &QPushButton::clicked, this, &TestClipWindow::choosePlace);
    auto* place = new QWidget;
    auto* row = new QHBoxLayout{place};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_choose);
    row->addWidget(m_again);
    row->addWidget(m_print);
    row->addStretch(1);
    return place;
}

QString TestClipWindow::draggedFilm(const QMimeData& data) {
    const QList<QUrl> urls = data.urls();
    if (urls.size() != 1 || !urls.front().isLocalFile()) {
        return {};
    }
    const QString file = urls.front().toLocalFile();
    return QFileInfo{file}.isFile() && !file.endsWith(QLatin1String{".turnmark"}) ? file
                                                                                  : QString{};
}

void TestClipWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (!draggedFilm(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void TestClipWindow::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    judge(draggedFilm(*event->mimeData()));
}

void TestClipWindow::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        close();
    } else {
        QWidget::keyPressEvent(event);
    }
}

void TestClipWindow::chooseClip() {
    style::askForFile(*this, {tr("Test clip"), {}, filmFilter()},
                      [this](const QString& file) { judge(file); });
}

void TestClipWindow::judgeAgain() {
    if (!m_file.isEmpty()) {
        judge(m_file);
    }
}

/// What is known, with what stands in the fields; absent when one cannot be used, which is said.
std::optional<core::intake::DaySetUp> TestClipWindow::entered() {
    const auto diameter = models::typedNumber(m_diameter->text(), kMostBallMm);
    const auto rate = models::typedNumber(m_rate->text(), kMostTestFps);
    style::setWrong(m_diameter, !diameter);
    style::setWrong(m_rate, !rate);
    for (const auto* typed : {&diameter, &rate}) {
        if (!*typed) {
            showHeadline(tr("One of the numbers cannot be used"),
                         QString::fromStdString(typed->error().message));
            return std::nullopt;
        }
    }
    core::intake::DaySetUp next = m_known;
    next.session.ballDiameterMm = diameter.value();
    next.session.marking = static_cast<core::project::BallMarking>(m_marking->currentIndex());
    next.captureRate.reset();
    if (rate.value()) {
        if (const auto exact = core::timebase::captureRateFromDecimal(*rate.value())) {
            next.captureRate = exact.value();
        }
    }
    return next;
}

void TestClipWindow::judge(const QString& file) {
    const auto known = entered();
    if (!known || m_job) {
        return;
    }
    m_known = *known;
    m_file = file;
    m_judged.reset();
    core::intake::StatedRate rate;
    if (known->captureRate) {
        rate.framesPerSecond = known->captureRate->fps.toDouble();
    }
    showHeadline(tr("Reading %1…").arg(QFileInfo{file}.fileName()),
                 tr("Its strikes are found and read, which takes a few seconds each."));
    m_job = m_jobs.start<TestClip>(
        tr("Judging a test clip"),
        [path = std::filesystem::path{file.toStdString()}, session = known->session,
         rate](bridge::JobContext& context) -> core::Result<TestClip> {
            BOOST_OUTCOME_TRY(film,
                              core::intake::readFilm(path, session, rate, context.stopToken()));
            return core::intake::judgeTestClip(film, session);
        },
        this, [this](const core::Result<TestClip>& judged) { comeHome(judged); });
    showRunning(true);
}

void TestClipWindow::comeHome(const core::Result<TestClip>& judged) {
    m_job.reset();
    const QString name = QFileInfo{m_file}.fileName();
    if (judged) {
        m_judged = judged.value();
        showHeadline(QString::fromStdString(verdictSentence(*m_judged)), name);
    } else {
        showHeadline(tr("%1 cannot be judged").arg(name),
                     QString::fromStdString(judged.error().message));
    }
    showRunning(false);
}

void TestClipWindow::showRunning(bool isRunning) {
    m_bar->setVisible(isRunning);
    m_choose->setEnabled(!isRunning);
    m_again->setEnabled(!isRunning && !m_file.isEmpty());
    m_print->setEnabled(m_judged.has_value());
    const bool leads = !m_judged;
    style::setRank(m_choose, leads ? style::Rank::Primary : style::Rank::Secondary);
    m_points->setWidget(m_judged ? listOf(*m_judged) : new QWidget);
}

void TestClipWindow::showHeadline(const QString& headline, const QString& words) {
    m_headline->setText(headline);
    m_words->setText(words);
}

void TestClipWindow::choosePlace() {
    style::askWhereToSave(
        *this, {tr("Print the test clip"), QStringLiteral("test-clip.pdf"), tr("PDF (*.pdf)")},
        [this](const QString& file) { print(file); });
}

void TestClipWindow::print(const QString& file) {
    if (!m_judged) {
        return;
    }
    const auto pdf =
        core::intake::testClipPdf(QFileInfo{m_file}.fileName().toStdString(), *m_judged);
    const auto done = pdf ? core::writeFile(std::filesystem::path{file.toStdString()}, pdf.value(),
                                            {core::Existing::Overwrite,
                                             {std::filesystem::path{m_file.toStdString()}}})
                          : core::Result<void>{pdf.error()};
    m_words->setText(done ? tr("Wrote %1").arg(file)
                          : QString::fromStdString(done.error().message));
}

}  // namespace ui::footage
