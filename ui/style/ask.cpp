#include "ui/style/ask.h"

#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QInputDialog>
#include <QMessageBox>
#include <QPushButton>
#include <utility>

namespace ui::style {
namespace {

/// A folder that is not there yet is made where its name is typed.
class FolderDialog : public QFileDialog {
public:
    using QFileDialog::QFileDialog;
    void accept() override {
        for (const QString& typed : selectedFiles()) {
            const QFileInfo folder{typed};
            if (!folder.exists() && folder.dir().exists()) {
                static_cast<void>(folder.dir().mkdir(folder.fileName()));  // else Qt says so
            }
        }
        QFileDialog::accept();
    }
};

/// Opens a dialog that goes when it is closed, or when nobody waits for its answer any more.
void open(QDialog* dialog, QWidget& asker) {
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(&asker, &QObject::destroyed, dialog, &QDialog::reject);
    dialog->open();
}

template <class Dialog = QFileDialog>
QFileDialog* fileDialog(QWidget& asker, const FileQuestion& question, QFileDialog::FileMode mode) {
    auto* dialog = new Dialog{asker.window(), question.title, question.at, question.filter};
    dialog->setFileMode(mode);
    return dialog;
}

void openForFolder(QFileDialog* dialog, QWidget& asker, std::function<void(const QString&)> then) {
    dialog->setOption(QFileDialog::ShowDirsOnly);
    QObject::connect(dialog, &QFileDialog::fileSelected, &asker, std::move(then));
    open(dialog, asker);
}

QString folderOfProject(const QWidget& asker) {
    for (const QWidget* window = &asker; window != nullptr; window = window->parentWidget()) {
        if (!window->windowFilePath().isEmpty()) {
            return QFileInfo{window->windowFilePath()}.absolutePath();
        }
    }
    return QDir::homePath();
}

QMessageBox* messageBox(QWidget& asker, const Question& question) {
    auto* box = new QMessageBox{asker.window()};
    box->setWindowTitle(question.title);
    box->setTextFormat(Qt::PlainText);
    box->setText(question.text);
    box->setInformativeText(question.more);
    box->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    return box;
}

}  // namespace

void askForFile(QWidget& asker, const FileQuestion& question,
                std::function<void(const QString&)> then) {
    auto* dialog = fileDialog(asker, question, QFileDialog::ExistingFile);
    QObject::connect(dialog, &QFileDialog::fileSelected, &asker, std::move(then));
    open(dialog, asker);
}

void askForFiles(QWidget& asker, const FileQuestion& question,
                 std::function<void(const QStringList&)> then) {
    auto* dialog = fileDialog(asker, question, QFileDialog::ExistingFiles);
    QObject::connect(dialog, &QFileDialog::filesSelected, &asker, std::move(then));
    open(dialog, asker);
}

void askForFolder(QWidget& asker, const FileQuestion& question,
                  std::function<void(const QString&)> then) {
    openForFolder(fileDialog(asker, question, QFileDialog::Directory), asker, std::move(then));
}

void askWhereToWrite(QWidget& asker, const FileQuestion& question,
                     std::function<void(const QString&)> then) {
    openForFolder(fileDialog<FolderDialog>(asker, question, QFileDialog::Directory), asker,
                  std::move(then));
}

void askWhereToSave(QWidget& asker, const FileQuestion& question,
                    std::function<void(const QString&)> then) {
    const QFileInfo start{question.at};
    const QString folder = start.isDir()        ? question.at
                           : start.isRelative() ? folderOfProject(asker)
                                                : start.path();
    auto* dialog =
        fileDialog(asker, {question.title, folder, question.filter}, QFileDialog::AnyFile);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(start.suffix());
    if (!start.isDir()) {
        dialog->selectFile(start.fileName());
    }
    QObject::connect(dialog, &QFileDialog::fileSelected, &asker, std::move(then));
    open(dialog, asker);
}

void askForText(QWidget& asker, const TextQuestion& question,
                std::function<void(const QString&)> then) {
    auto* dialog = new QInputDialog{asker.window()};
    dialog->setWindowTitle(question.title);
    dialog->setLabelText(question.label);
    dialog->setTextValue(question.text);
    QObject::connect(dialog, &QInputDialog::textValueSelected, &asker,
                     [then = std::move(then)](const QString& value) {
                         if (const QString given = value.trimmed(); !given.isEmpty()) {
                             then(given);
                         }
                     });
    open(dialog, asker);
}

void askWhether(QWidget& asker, const Question& question, std::function<void()> then) {
    auto* box = messageBox(asker, question);
    if (question.yes.isEmpty()) {
        box->addButton(QMessageBox::Close);
    } else {
        auto* yes = box->addButton(question.yes, QMessageBox::AcceptRole);
        box->addButton(QMessageBox::Cancel);
        QObject::connect(yes, &QPushButton::clicked, &asker, std::move(then));
    }
    open(box, asker);
}

void tell(QWidget& asker, const QString& title, const QString& text) {
    askWhether(asker, {title, text}, {});
}

}  // namespace ui::style
