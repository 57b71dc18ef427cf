"""An application of the framework that can only say that it is ready; start_up.py starts this with a port."""

import sys

import uvicorn
from fastapi import FastAPI
from served import PLAIN_SETTINGS

app = FastAPI()


@app.get("/health/ready")
async def ready() -> dict[str, str]:
    return {"status": "ready"}


if __name__ == "__main__":
    uvicorn.run(app, host="127.0.0.1", port=int(sys.argv[1]), **PLAIN_SETTINGS)
