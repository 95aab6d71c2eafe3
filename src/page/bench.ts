import './bench.css';
