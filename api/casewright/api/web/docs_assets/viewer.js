// A viewer of one solid model (glTF) in a canvas. It draws when something changed, and at no other time.
import {
  AmbientLight, Box3, DirectionalLight, EdgesGeometry, GLTFLoader, LineBasicMaterial, LineSegments,
  MeshStandardMaterial, OrbitControls, PerspectiveCamera, Raycaster, Scene, Spherical, Vector2, Vector3, WebGLRenderer,
} from "./library/three.js";

const FIELD_OF_VIEW_DEG = 35;
const EDGE_FROM_DEG = 25;
/** How much farther off than the corners of its box ask for. */
const MARGIN = 1.04;
const TURN = Math.PI / 12;
const NEARER = 0.85;
/** A press that moved less than this, in pixels, is a click and no turning. */
const STILL_PX = 5;

/** Open a model in a canvas. `pick` is called with the id of the part that is clicked on, or "" beside all of them. */
export async function openViewer(canvas, bytes, pick) {
  const file = await new GLTFLoader().parseAsync(bytes, "");
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  const camera = new PerspectiveCamera(FIELD_OF_VIEW_DEG, 1, 0.01, 200);
  const light = new DirectionalLight(0xffffff, 2);
  const world = new Scene();
  camera.add(light);
  world.add(new AmbientLight(0xffffff, 1.6), camera);
  const [together, apart] = file.scenes;
  for (const scene of file.scenes) drawEdges(scene);
  let shown = together;
  world.add(shown);

  const controls = new OrbitControls(camera, canvas);
  controls.enableZoom = false; // until it is in focus: the wheel scrolls the page
  controls.addEventListener("change", draw);
  canvas.addEventListener("focus", () => { controls.enableZoom = true; });
  canvas.addEventListener("blur", () => { controls.enableZoom = false; });
  const lit = new MeshStandardMaterial({ color: 0x1fa3a0, emissive: 0x0b5d5e, roughness: 0.8 });
  const own = new Map();
  eachMesh((mesh) => own.set(mesh, mesh.material));
  for (const material of new Set([lit, ...own.values()])) Object.assign(material, { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 }); // edges stand before faces

  function draw() {
    renderer.render(world, camera);
  }

  function resize() {
    const { clientWidth: width, clientHeight: height } = canvas.parentElement;
    if (!width || !height) return; // its tab is not open
    renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    draw();
  }

  /** Look from a direction, so far off that all of it is in sight. */
  function look(from) {
    const box = new Box3().setFromObject(shown);
    const middle = box.getCenter(new Vector3());
    const high = Math.tan(((FIELD_OF_VIEW_DEG / 2) * Math.PI) / 180);
    const way = new Vector3(...from).normalize();
    controls.target.copy(middle);
    camera.position.copy(middle).add(way);
    controls.update();
    camera.updateMatrixWorld();
    const near = (corner) => corner.applyMatrix4(camera.matrixWorldInverse);
    const needed = cornersOf(box).map(near).map(({ x, y, z }) => z + 1 + Math.max(Math.abs(y), Math.abs(x) / camera.aspect) / high);
    camera.position.copy(middle).addScaledVector(way, MARGIN * Math.max(...needed));
    controls.update();
    draw();
  }

  function turn(across, up) {
    const arm = camera.position.clone().sub(controls.target);
    const place = new Spherical().setFromVector3(arm);
    place.theta += across * TURN;
    place.phi -= up * TURN;
    place.makeSafe();
    camera.position.copy(controls.target).add(arm.setFromSpherical(place));
    controls.update();
    draw();
  }

  function nearer(steps) {
    camera.position.sub(controls.target).multiplyScalar(NEARER ** steps).add(controls.target);
    controls.update();
    draw();
  }

  function eachMesh(act) {
    for (const scene of [together, apart].filter(Boolean)) scene.traverse((node) => node.isMesh && act(node));
  }

  const keys = {
    ArrowLeft: () => turn(-1, 0), ArrowRight: () => turn(1, 0), ArrowUp: () => turn(0, 1), ArrowDown: () => turn(0, -1),
    "+": () => nearer(1), "=": () => nearer(1), "-": () => nearer(-1),
  };
  canvas.addEventListener("keydown", (event) => {
    if (!keys[event.key] || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    keys[event.key]();
  });

  let pressed = null;
  canvas.addEventListener("pointerdown", (event) => { pressed = [event.clientX, event.clientY]; });
  canvas.addEventListener("pointerup", (event) => {
    if (!pressed || Math.hypot(event.clientX - pressed[0], event.clientY - pressed[1]) > STILL_PX) return;
    const frame = canvas.getBoundingClientRect();
    const spot = new Vector2(((event.clientX - frame.x) / frame.width) * 2 - 1, 1 - ((event.clientY - frame.y) / frame.height) * 2);
    const caster = new Raycaster();
    caster.setFromCamera(spot, camera);
    const met = caster.intersectObject(shown).find((one) => one.object.isMesh && one.object.visible);
    pick(met ? nameOf(met.object) : "");
  });

  const sizes = new ResizeObserver(resize);
  sizes.observe(canvas.parentElement ?? canvas);
  // The canvas is put in its place after this; what is around it then has a size.
  requestAnimationFrame(() => {
    if (canvas.parentElement) sizes.observe(canvas.parentElement);
    resize();
    look([0.7, 0.5, 1]);
  });

  return {
    look,
    turn,
    nearer,
    /** Show the parts put together or taken apart. */
    takeApart(on) {
      world.remove(shown);
      shown = on && apart ? apart : together;
      world.add(shown);
      look(camera.position.clone().sub(controls.target).toArray());
    },
    /** Hide the parts of these ids, and show all others. */
    hide(ids) {
      const hidden = new Set(ids);
      eachMesh((mesh) => { mesh.visible = !hidden.has(nameOf(mesh)); });
      draw();
    },
    /** Show the part of this id in a colour of its own. */
    lightUp(id) {
      eachMesh((mesh) => {
        mesh.material = id && nameOf(mesh) === id ? lit : own.get(mesh);
      });
      draw();
    },
    /** Give back what the browser lent. */
    leave() {
      sizes.disconnect();
      controls.dispose();
      renderer.dispose();
      renderer.forceContextLoss();
    },
  };
}

/** Return the eight corners of a box. */
function cornersOf({ min, max }) {
  return [min.x, max.x].flatMap((x) => [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => new Vector3(x, y, z))));
}

/** Return the id of the part that a mesh is: the loader changes names, and keeps them as they were beside. */
function nameOf(mesh) {
  return mesh.userData.name ?? mesh.name;
}

/** Draw the edges of every part, so that parts of one colour are told apart. */
function drawEdges(scene) {
  const ink = new LineBasicMaterial({ color: 0x2a2118 });
  const made = new Map();
  const meshes = [];
  scene.traverse((node) => node.isMesh && meshes.push(node));
  for (const mesh of meshes) {
    if (!made.has(mesh.geometry)) made.set(mesh.geometry, new EdgesGeometry(mesh.geometry, EDGE_FROM_DEG));
    mesh.add(new LineSegments(made.get(mesh.geometry), ink));
  }
}
