// What docs_assets/model.js uses of the viewer of models.
export {
  AmbientLight, Box3, DirectionalLight, EdgesGeometry, LineBasicMaterial, LineSegments, MeshStandardMaterial,
  PerspectiveCamera, Raycaster, Scene, Spherical, Vector2, Vector3, WebGLRenderer,
} from "three";
export { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
export { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";
