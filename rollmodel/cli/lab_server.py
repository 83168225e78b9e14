"""The notebook server that ``rollmodel open`` starts: one Ctrl+C ends it in good order, wherever it runs."""

import os
import signal
import sys
import threading
import time

from jupyter_server.serverapp import ServerApp
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

from rollmodel.cli.common import say

PATIENCE = 5.0  # s, for threads that still work when the server has stopped


def end_whatever_waits() -> None:
    """Leave the program, also when a thread would keep it for ever.

    A page that was being made when the server stopped leaves its thread waiting for work that never comes.
    Kernels are ended and files are put away by then.
    """
    end = time.monotonic() + PATIENCE
    for thread in threading.enumerate():
        if thread is not threading.current_thread() and not thread.daemon:
            thread.join(max(0.0, end - time.monotonic()))
            if thread.is_alive():
                sys.stdout.flush()
                os._exit(0)


class LessonServer(ServerApp):
    """A server that a single Ctrl+C stops, kernels and all; a second one stops it at once.

    Jupyter's own server does so in a terminal only. Elsewhere, and on Windows, Ctrl+C breaks off whatever is
    being answered just then; what is broken off may leave a thread for which the program waits for ever.
    """

    def init_signal(self) -> None:
        """Take the signals that end the program."""
        super().init_signal()
        signal.signal(signal.SIGINT, self._stop_in_good_order)

    def _stop_in_good_order(self, _number: int, _frame: object) -> None:
        """The next Ctrl+C is not caught any more."""
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        self.io_loop.add_callback_from_signal(say, "Stopping.")  # not here: another line may be half printed
        self.stop(from_signal=True)


class PromptPictures(ZMQChannelsWebsocketConnection):
    """What the kernel says reaches the page at once.

    Left alone, the system holds a small message back until the one before it is acknowledged, which takes
    up to 40 ms; a picture that follows a slider consists of a few small messages.
    """

    def connect(self):
        """Say so before the first message."""
        self.websocket_handler.set_nodelay(True)
        return super().connect()
