"""The camera of an Android tablet, with its torch, through the system's own calls. Written for, never run.

It uses the older of the two camera interfaces (android.hardware.Camera): previews come as NV21, whose first
plane is the grey picture that labels are read in.
"""

from __future__ import annotations

from threading import Event
from typing import Any

from teardown_app.ui.camera import BUSY, FRONT, NONE, NOT_ALLOWED, CameraTrouble, Capture

FACES_FRONT = 1
WIDTH, HEIGHT = 1280, 720
WAIT_S = 0.5


class AndroidCapture:
    """An open camera of the tablet."""

    pause_s = 0.0

    def __init__(self, camera: Any) -> None:
        from jnius import autoclass

        self._camera, self._came = camera, Event()
        self._data: Any = None
        settings = camera.getParameters()
        settings.setPreviewSize(WIDTH, HEIGHT)
        focus = settings.getSupportedFocusModes()
        if focus is not None and focus.contains("continuous-picture"):
            settings.setFocusMode("continuous-picture")
        lights = settings.getSupportedFlashModes()
        self.has_torch = bool(lights is not None and lights.contains("torch"))
        camera.setParameters(settings)
        self._texture = autoclass("android.graphics.SurfaceTexture")(0)
        camera.setPreviewTexture(self._texture)
        self._callback = _preview_callback(self._take)
        camera.setPreviewCallback(self._callback)
        camera.startPreview()

    def _take(self, data: Any) -> None:
        self._data = data
        self._came.set()

    def read(self) -> Any | None:
        """The newest preview in grey, none when none came in half a second."""
        import numpy as np

        if not self._came.wait(WAIT_S):
            return None
        self._came.clear()
        grey = np.frombuffer(bytes(self._data[: WIDTH * HEIGHT]), np.uint8).reshape(HEIGHT, WIDTH)
        return np.repeat(grey[:, :, None], 3, axis=2)

    def torch(self, on: bool) -> bool:
        """Switches the light."""
        if not self.has_torch:
            return False
        settings = self._camera.getParameters()
        settings.setFlashMode("torch" if on else "off")
        self._camera.setParameters(settings)
        return True

    def release(self) -> None:
        """Lets go of the camera."""
        self._camera.setPreviewCallback(None)
        self._camera.stopPreview()
        self._camera.release()


def _preview_callback(take: Any) -> Any:
    from jnius import PythonJavaClass, java_method

    class Preview(PythonJavaClass):  # type: ignore[misc]
        __javainterfaces__ = ["android/hardware/Camera$PreviewCallback"]
        __javacontext__ = "app"

        @java_method("([BLandroid/hardware/Camera;)V")  # type: ignore[untyped-decorator]
        def onPreviewFrame(self, data: Any, _camera: Any) -> None:
            take(data)

    return Preview()


def open_android_camera(side: str) -> Capture:
    """Opens the camera of a side; raises `CameraTrouble`."""
    from android.permissions import Permission, check_permission, request_permissions
    from jnius import JavaException, autoclass

    if not check_permission(Permission.CAMERA):
        request_permissions([Permission.CAMERA])
        raise CameraTrouble(NOT_ALLOWED)
    system = autoclass("android.hardware.Camera")
    about = autoclass("android.hardware.Camera$CameraInfo")()
    numbers: dict[bool, int] = {}
    for number in range(system.getNumberOfCameras()):
        system.getCameraInfo(number, about)
        numbers.setdefault(about.facing == FACES_FRONT, number)
    if not numbers:
        raise CameraTrouble(NONE)
    try:
        camera = system.open(numbers.get(side == FRONT, next(iter(numbers.values()))))
    except JavaException as refused:
        raise CameraTrouble(BUSY) from refused
    return AndroidCapture(camera)
