#pragma once

#include <QString>
#include <QStringList>
#include <functional>

class QWidget;

/// Questions in a dialog of their own, none of which waits inside the caller: whoever asks may be
/// gone before the answer, because a project can be closed at any time. `then` is called with an
/// answer only, and only while `asker` lives. Use on the GUI thread.
namespace ui::style {

struct FileQuestion {
    QString title{};
    /// A folder, or a file's path to begin with; a file's name alone stands beside the project of
    /// the window that asks (windowFilePath), without one in the person's own folder.
    QString at{};
    QString filter{};  ///< empty: all files
};

void askForFile(QWidget& asker, const FileQuestion& question,
                std::function<void(const QString&)> then);
void askForFiles(QWidget& asker, const FileQuestion& question,
                 std::function<void(const QStringList&)> then);
void askForFolder(QWidget& asker, const FileQuestion& question,
                  std::function<void(const QString&)> then);
/// The same for files to be written; a folder that is not there yet is made.
void askWhereToWrite(QWidget& asker, const FileQuestion& question,
                     std::function<void(const QString&)> then);
/// A file that is there is asked about before it is given.
void askWhereToSave(QWidget& asker, const FileQuestion& question,
                    std::function<void(const QString&)> then);

struct TextQuestion {
    QString title{};
    QString label{};  ///< above the field
    QString text{};   ///< to begin with
};

/// then gets the text without blanks at its ends, never an empty one.
void askForText(QWidget& asker, const TextQuestion& question,
                std::function<void(const QString&)> then);

struct Question {
    QString title{};
    QString text{};
    QString more{};  ///< below the text, smaller
    QString yes{};   ///< the button that does it; empty: there is nothing to do
};

/// then is called when it shall be done.
void askWhether(QWidget& asker, const Question& question, std::function<void()> then);

/// Something to read, nothing to decide.
void tell(QWidget& asker, const QString& title, const QString& text);

}  // namespace ui::style
