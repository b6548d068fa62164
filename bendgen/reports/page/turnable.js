// The finished part, turned by dragging or with the buttons; the drawings of the sheet need no script.
"use strict";
(() => {
  const { od, axis, bends } = JSON.parse(document.getElementById("sheet-data").textContent).turnable;
  const figure = document.getElementById("turnable");
  const canvas = figure.querySelector("canvas");
  const pen = canvas.getContext("2d");
  const START = { around: -0.6, above: 0.5 }; // where somebody stands who looks at the part [rad]
  const BUTTON_TURN = Math.PI / 12;
  const DRAG_TURN = 0.01; // for one pixel
  const MARGIN = 24;
  const OUTLINE = 3;
  const eye = { ...START };

  // Radius of the ball, around the middle of the part, that holds it whichever way it is turned.
  const reach = Math.max(...axis.map((point) => Math.hypot(...point))) + od / 2;

  // Place on the canvas of a point, z up, and how near it is to the eye.
  function seen([x, y, z]) {
    const right = x * Math.cos(eye.around) + y * Math.sin(eye.around);
    const away = y * Math.cos(eye.around) - x * Math.sin(eye.around);
    const up = z * Math.cos(eye.above) + away * Math.sin(eye.above);
    const scale = scaleOf();
    return {
      x: canvas.clientWidth / 2 + scale * right,
      y: canvas.clientHeight / 2 - scale * up,
      near: z * Math.sin(eye.above) - away * Math.cos(eye.above),
    };
  }

  const scaleOf = () => (Math.min(canvas.clientWidth, canvas.clientHeight) / 2 - MARGIN) / reach;

  function line(from, to, width, colour, cap) {
    pen.lineWidth = width;
    pen.strokeStyle = colour;
    pen.lineCap = cap;
    pen.beginPath();
    pen.moveTo(from.x, from.y);
    pen.lineTo(to.x, to.y);
    pen.stroke();
  }

  function word(text, place) {
    pen.lineWidth = 5;
    pen.strokeStyle = "white";
    pen.strokeText(text, place.x, place.y);
    pen.fillText(text, place.x, place.y);
  }

  // Far pieces first; the white of each covers the outline of those behind it.
  function draw() {
    const sharpness = window.devicePixelRatio || 1;
    canvas.width = canvas.clientWidth * sharpness;
    canvas.height = canvas.clientHeight * sharpness;
    pen.scale(sharpness, sharpness);
    const places = axis.map(seen);
    const pieces = places.slice(1).map((to, index) => [places[index], to]);
    pieces.sort((one, other) => one[0].near + one[1].near - other[0].near - other[1].near);
    const width = Math.max(od * scaleOf(), OUTLINE);
    for (const [from, to] of pieces) {
      line(from, to, width + OUTLINE, "black", "butt");
      line(from, to, Math.max(width - OUTLINE, 1), "white", "round");
    }
    pen.font = "bold 15px Arial, sans-serif";
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    bends.forEach((point, index) => word(String(index + 1), seen(point)));
    word("front", places[0]);
    word("rear", places[places.length - 1]);
  }

  function turn(around, above) {
    eye.around += around;
    eye.above = Math.max(-Math.PI / 2, Math.min(Math.PI / 2, eye.above + above));
    draw();
  }

  const TURNS = {
    left: () => turn(BUTTON_TURN, 0),
    right: () => turn(-BUTTON_TURN, 0),
    up: () => turn(0, BUTTON_TURN),
    down: () => turn(0, -BUTTON_TURN),
    back: () => turn(START.around - eye.around, START.above - eye.above),
  };
  for (const button of figure.querySelectorAll("button")) button.addEventListener("click", TURNS[button.value]);
  canvas.addEventListener("pointerdown", (event) => canvas.setPointerCapture(event.pointerId));
  canvas.addEventListener("pointermove", (event) => {
    if (canvas.hasPointerCapture(event.pointerId)) turn(-event.movementX * DRAG_TURN, event.movementY * DRAG_TURN);
  });
  window.addEventListener("resize", draw);
  figure.hidden = false;
  draw();
})();
