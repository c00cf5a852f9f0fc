"""The shell: a project in the terminal, on Textual."""


def run(path: str | None) -> int:
    """Open a project (None: a new one without a name) and stay until the person leaves; the exit code.

    Raises:
        ProjectUnreadable: the file cannot be read; nothing was shown yet.
    """
    from boltend.shell.desk import Desk

    desk = Desk.open(path)
    # Textual takes 150 ms: a file that cannot be read is told before that.
    from boltend.shell.app import BoltendApp

    app = BoltendApp(desk)
    try:
        app.run()
    finally:
        app.desk.close()  # also after a fault of ours: the worker must not keep the terminal waiting
    return app.return_code or 0
